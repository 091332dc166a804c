/** What can not be true of a hold-down: mostly a strap's figures read off the wrong line of its label. */
import type { Fault } from '../fault.ts';
import { withoutDust } from '../units.ts';
import type { HoldDown } from './holdDown.ts';
import type { Void } from './job.ts';

/** A lashing capacity above this was written in N or daN, kN. */
const STRONGEST = 100;

/** What is kept free over a stow, mm: everywhere, and at the place of a keep-out that reaches the top of the void. */
export interface RoomOver {
  clearTop: number;
  keptFree: number;
}

/** A keep-out from side to side, as a bar across would need it, counts from its lower edge where it reaches the top. */
export function roomOver(space: Void): RoomOver {
  const { height, width, clear } = space;
  const kept = space.keepOut.filter(
    ({ across, up, access }) => across[1] - across[0] >= 0.9 * width && (access || up[1] >= height - clear.top),
  );
  return { clearTop: clear.top, keptFree: kept.reduce((most, { up }) => Math.max(most, height - up[0]), 0) };
}

/** `path` is the place of the hold-down in the file. */
export function holdFaults(hold: HoldDown, over: RoomOver, path: string): Fault[] {
  const faults: Fault[] = [];
  for (const [i, strap] of hold.straps.entries()) {
    const at = `${path}.straps[${i}]`;
    faults.push(...forceFaults(strap.lashingCapacity, `${at}.lashingCapacity`));
    const { breakingLoad } = strap;
    if (breakingLoad !== undefined && strap.lashingCapacity > breakingLoad / 2) {
      const message = `A lashing capacity of ${strap.lashingCapacity} kN is more than half the breaking load of ${breakingLoad} kN.`;
      const remedy = 'Write the figure marked LC on the label; the breaking load is no load to plan with.';
      faults.push({ path: `${at}.lashingCapacity`, code: 'contradiction', message, remedy });
    }
    if (strap.kind === 'over' && strap.tension !== undefined && strap.tension > strap.lashingCapacity) {
      const message = `A tension of ${strap.tension} kN is more than the strap's lashing capacity of ${strap.lashingCapacity} kN.`;
      const remedy = 'Write the figure marked STF on the label; it is in daN: divide by 100 for kN.';
      faults.push({ path: `${at}.tension`, code: 'contradiction', message, remedy });
    }
  }
  for (const [side, blocked] of Object.entries(hold.blocked)) {
    if (blocked) faults.push(...forceFaults(blocked.carries, `${path}.blocked.${side}.carries`));
    if (blocked && /\bsole\b|floor ?boards?/i.test(blocked.by)) {
      const message = `“${blocked.by}” is entered as what holds the stow.`;
      const remedy = 'A sole board holds nothing: name the floor, frame or chock behind it, or take this out.';
      faults.push({ path: `${path}.blocked.${side}.by`, code: 'contradiction', message, remedy });
    }
  }
  return [...faults, ...loadFaults(hold.loads, `${path}.loads`), ...roomFaults(hold, over, path)];
}

function forceFaults(value: number, path: string): Fault[] {
  if (value <= STRONGEST) return [];
  const message = `${value} kN would hold ${Math.round(value / 9.81)} tonnes.`;
  const remedy = `Did you mean ${withoutDust(value / 1000)} (it was in newtons) or ${withoutDust(value / 100)} (in daN)? Forces are in kN.`;
  return [{ path, code: 'wrong-unit', message, remedy }];
}

function loadFaults(loads: HoldDown['loads'], path: string): Fault[] {
  const lighter = ([loads.along, loads.across, loads.up] as const).some((factor) => factor !== undefined && factor < 2);
  if (!lighter || loads.reason !== undefined) return [];
  const message = 'A load lighter than twice the weight is stated without a reason.';
  const remedy = 'Write the reason: it is printed on the papers; or take the lighter load out.';
  return [{ path: `${path}.reason`, code: 'missing-field', message, remedy }];
}

/** Bars across stand over the stow by their own height at least. Under a keep-out that reaches the top there is its height too. */
function roomFaults(hold: HoldDown, { clearTop, keptFree }: RoomOver, path: string): Fault[] {
  const room = Math.max(clearTop, keptFree);
  const faults: Fault[] = [];
  if (hold.room > room) {
    const message = `The hold-down takes ${hold.room} mm above the stow, and only ${room} mm is kept clear there.`;
    const remedy = `Keep at least ${hold.room} mm clear at the top of the void (clear.top), or choose a lower hold-down.`;
    faults.push({ path: `${path}.room`, code: 'contradiction', message, remedy });
  }
  for (const [i, bar] of hold.bars.entries()) {
    const height = bar.onEdge ? bar.width : bar.thickness;
    if (height <= room) continue;
    const side = bar.onEdge ? 'width' : 'thickness';
    const message = `The bar across stands ${height} mm high, and only ${room} mm is kept clear above the stow.`;
    const remedy = `Keep at least ${height} mm clear at the top of the void (clear.top), keep its place free as a keep-out, or choose a lower bar.`;
    faults.push({ path: `${path}.bars[${i}].${side}`, code: 'contradiction', message, remedy });
  }
  return faults;
}
