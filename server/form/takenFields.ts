/** What is posted as read afloat: marks, list, roll and freeboards, when and by whom. */
import { FREEBOARDS, type FreeboardPlace, type Reading } from '../../src/balance/taken.ts';
import { type Asked, type Bounds, readFigure, readListNow, type Unit } from '../show/askedFigures.ts';
import { isDay, noteFault, tidy } from './recordFields.ts';

interface TakenField {
  label: string;
  unit: Unit;
  bounds?: Bounds;
  /** `list` is read with its side. */
  kind: 'figure' | 'list';
}

/** A hull of these sizes lies no deeper and stands no higher than this, m: more was written in centimetres. */
const DEPTH: Bounds = { least: 0.01, most: 10 };

export const TAKEN_FIELDS = {
  forward: { label: 'Draught, fore end', unit: 'm', bounds: DEPTH, kind: 'figure' },
  aft: { label: 'Draught, after end', unit: 'm', bounds: DEPTH, kind: 'figure' },
  list: { label: 'List and its side', unit: '', kind: 'list' },
  period: { label: 'One whole roll', unit: 's', bounds: { least: 0.1, most: 60 }, kind: 'figure' },
  'freeboard.forward': { label: 'Freeboard, fore end', unit: 'm', bounds: DEPTH, kind: 'figure' },
  'freeboard.aft': { label: 'Freeboard, after end', unit: 'm', bounds: DEPTH, kind: 'figure' },
  'freeboard.port': { label: 'Freeboard, port side', unit: 'm', bounds: DEPTH, kind: 'figure' },
  'freeboard.starboard': { label: 'Freeboard, starboard side', unit: 'm', bounds: DEPTH, kind: 'figure' },
} as const satisfies Record<string, TakenField>;

export type TakenName = keyof typeof TAKEN_FIELDS;
export const TAKEN_NAMES = Object.keys(TAKEN_FIELDS) as TakenName[];

/** A field that is no figure, or the whole. */
export interface TakenFault {
  field: 'on' | 'at' | 'who' | 'note' | 'forward';
  message: string;
  remedy: string;
}

export interface ReadTaken {
  asked: Record<TakenName, Asked>;
  faults: TakenFault[];
  /** Null where anything is faulty. What was aboard then is not typed. */
  reading: Omit<Reading, 'aboard'> | null;
}

/** The longest name that is taken. */
const WHO_LONGEST = 80;

/** `typed` gives what stands in a field by its name; `today` and `now` are the day and the time of the place. */
export function readTaken(
  typed: (name: string) => string | undefined,
  { today, now }: { today: string; now: string },
): ReadTaken {
  const asked = Object.fromEntries(
    TAKEN_NAMES.map((name) => {
      const { unit, bounds, kind }: TakenField = TAKEN_FIELDS[name];
      const text = typed(name) ?? '';
      return [name, kind === 'list' ? readListNow(text) : readFigure(text, unit, bounds)];
    }),
  ) as ReadTaken['asked'];
  const [on, at] = [(typed('on') ?? '').trim() || today, (typed('at') ?? '').trim()];
  const [who, note] = [tidy(typed('who') ?? ''), tidy(typed('note') ?? '')];
  const faults: TakenFault[] = [];
  const tell = (field: TakenFault['field'], message: string, remedy: string) => faults.push({ field, message, remedy });
  if (!isDay(on)) tell('on', `“${on.slice(0, 40)}” is no day.`, 'Give year, month and day, such as 2029-05-04.');
  else if (on > today) tell('on', `${on} is still to come.`, 'Give the day on which it was read.');
  if (at !== '' && !/^([01]\d|2[0-3]):[0-5]\d$/.test(at))
    tell('at', `“${at.slice(0, 40)}” is no time.`, 'Give hours and minutes, such as 14:30, or leave it empty.');
  else if (on === today && at > now) tell('at', `${at} is still to come.`, 'Give the time at which it was read.');
  if (who.length > WHO_LONGEST)
    tell('who', `These are ${who.length} letters, and a name has at most ${WHO_LONGEST}.`, 'Say it shorter.');
  const long = noteFault(note);
  if (long) tell('note', long.message, long.remedy);
  const isNothing = TAKEN_NAMES.every((name) => asked[name].value === null && !asked[name].faulty);
  if (isNothing)
    tell('forward', 'Nothing is said of what was read.', 'Type what you read: marks, list, roll or freeboards.');
  const faulty = faults.length > 0 || TAKEN_NAMES.some((name) => asked[name].faulty);
  const value = (name: TakenName) => asked[name].value;
  const freeboards = Object.fromEntries(FREEBOARDS.map((place) => [place, value(`freeboard.${place}`)])) as Record<
    FreeboardPlace,
    number | null
  >;
  return {
    asked,
    faults,
    reading: faulty
      ? null
      : {
          on,
          at,
          who,
          note,
          forward: value('forward'),
          aft: value('aft'),
          list: value('list'),
          period: value('period'),
          freeboards,
          struck: false,
        },
  };
}

/** What a reading has in the fields of the form. */
export function typedOf(reading: Reading): (name: string) => string | undefined {
  const list = reading.list;
  const texts: Record<string, string> = {
    on: reading.on,
    at: reading.at,
    who: reading.who,
    note: reading.note,
    list: list === null ? '' : list === 0 ? '0' : `${Math.abs(list)} to ${list < 0 ? 'port' : 'starboard'}`,
  };
  for (const name of ['forward', 'aft', 'period'] as const) texts[name] = String(reading[name] ?? '');
  for (const place of FREEBOARDS) texts[`freeboard.${place}`] = String(reading.freeboards[place] ?? '');
  return (name) => texts[name];
}
