/** Adds to a box job what real bilges have: station readings, keep-outs, openings, bearers, drains; and joints and either-way voids. */
import type { JobInput } from '../../src/job/job.ts';
import type { Dice } from './dice.ts';

type VoidInput = JobInput['voids'][number];

/** Two to four stations, narrower below than above, the bottom rising or falling along the void. */
function addStations(dice: Dice, place: VoidInput): void {
  const count = dice.whole(2, 4);
  const alongs = [0, ...Array.from({ length: count - 2 }, () => dice.whole(50, place.length - 50)), place.length];
  alongs.sort((a, b) => a - b);
  const half = place.width / 2;
  place.stations = alongs
    .filter((along, n) => along !== alongs[n - 1])
    .map((along) => {
      const rise = dice.whole(0, 25);
      const low = dice.stepped(0.5, 0.9, 0.05);
      const skew = dice.whole(-8, 8);
      const middle = rise + Math.round((place.height - rise) * 0.4);
      const readings = [
        { up: rise, from: Math.round(-half * low) + skew, to: Math.round(half * low) + skew },
        { up: place.height, from: -Math.round(half) + skew, to: Math.round(half) },
      ];
      const hollow = Math.round(half * (low + 1) * 0.5 * dice.stepped(0.92, 1.08, 0.04));
      if (dice.chance(0.5)) readings.splice(1, 0, { up: middle, from: -hollow + skew, to: hollow });
      return { along, at: readings };
    });
}

function addKeepOuts(dice: Dice, place: VoidInput): void {
  place.keepOut = Array.from({ length: dice.whole(1, 2) }, (_, n) => {
    const along = dice.whole(0, Math.max(1, place.length - 80));
    const across = dice.whole(-Math.round(place.width / 2), Math.round(place.width / 2) - 40);
    return {
      what: n === 0 ? 'keel bolt' : 'suction pipe',
      along: [along, along + dice.whole(30, 80)] as [number, number],
      across: [across, across + dice.whole(20, 60)] as [number, number],
      up: [0, dice.whole(20, place.height)] as [number, number],
      ...(dice.chance(0.4) ? { access: false } : {}),
    };
  });
}

/** Frames across the void, 100 to 250 mm apart; some bear only so much, and so may a metre of the void. */
function addBearers(dice: Dice, place: VoidInput): void {
  const apart = dice.whole(100, 250);
  const first = dice.whole(20, apart);
  const most = dice.chance(0.5) ? { most: dice.whole(20, 90) } : {};
  const bearers: NonNullable<VoidInput['bearers']> = [];
  for (let along = first; along < place.length; along += apart) bearers.push({ along, width: 40, ...most });
  // Bundles rest on two or more: a void with one is refused.
  if (bearers.length > 1) place.bearers = bearers;
  if (dice.chance(0.3)) place.mostPerMetre = dice.whole(60, 300);
}

function addDrain(dice: Dice, place: VoidInput): void {
  place.drain = { width: dice.whole(15, 50), height: dice.whole(10, 40), where: dice.pick(['middle', 'sides']) };
}

/** Changes some voids of `job` and perhaps its bundle rules; the job itself is returned. */
export function addShape(dice: Dice, job: JobInput): JobInput {
  for (const place of job.voids) {
    if (dice.chance(0.25)) {
      place.axis = 'either';
    } else if (dice.chance(0.6)) addStations(dice, place);
    if (dice.chance(0.35)) addKeepOuts(dice, place);
    if (place.axis !== 'either' && dice.chance(0.3)) addBearers(dice, place);
    if (place.axis !== 'either' && dice.chance(0.25)) addDrain(dice, place);
    if (dice.chance(0.35)) {
      const along = dice.whole(200, Math.max(201, Math.round(place.length * 0.8)));
      const across = dice.whole(100, Math.max(101, Math.round(place.width * 1.1)));
      place.opening = { along, across, endFirst: dice.chance(0.5), deck: dice.pick([0, 18, 30]) };
    }
  }
  if (dice.chance(0.4))
    job.bundle = { ...job.bundle, joints: { shortest: dice.pick([150, 250]), share: dice.pick([0.2, 0.4, 1]) } };
  return job;
}
