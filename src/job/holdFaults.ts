/** What can not be true of a hold-down: mostly a strap's figures read off the wrong line of its label. */
import type { Fault } from '../fault.ts';
import type { HoldDown } from './holdDown.ts';

/** A lashing capacity above this was written in N or daN, kN. */
const STRONGEST = 100;

/** `clearTop` is the room kept free over the stow, mm; `path` the place of the hold-down in the file. */
export function holdFaults(hold: HoldDown, clearTop: number, path: string): Fault[] {
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
  return [...faults, ...loadFaults(hold.loads, `${path}.loads`), ...roomFaults(hold, clearTop, path)];
}

function forceFaults(value: number, path: string): Fault[] {
  if (value <= STRONGEST) return [];
  const message = `${value} kN would hold ${Math.round(value / 9.81)} tonnes.`;
  const remedy = `Did you mean ${value / 1000} (it was in newtons) or ${value / 100} (in daN)? Forces are in kN.`;
  return [{ path, code: 'wrong-unit', message, remedy }];
}

function loadFaults(loads: HoldDown['loads'], path: string): Fault[] {
  const lighter = ([loads.along, loads.across, loads.up] as const).some((factor) => factor !== undefined && factor < 2);
  if (!lighter || loads.reason !== undefined) return [];
  const message = 'A load lighter than twice the weight is stated without a reason.';
  const remedy = 'Write the reason: it is printed on the papers; or take the lighter load out.';
  return [{ path: `${path}.reason`, code: 'missing-field', message, remedy }];
}

function roomFaults(hold: HoldDown, clearTop: number, path: string): Fault[] {
  if (hold.room <= clearTop) return [];
  const message = `The hold-down takes ${hold.room} mm above the stow, and only ${clearTop} mm is kept clear there.`;
  const remedy = `Make the void's clear.top at least ${hold.room}, or choose a lower hold-down.`;
  return [{ path: `${path}.room`, code: 'contradiction', message, remedy }];
}
