/** What of a vessel is not known and could not be estimated either, so that something can not be told; and what tells it. */
import type { Vessel } from '../job/job.ts';
import type { Hydrostatics } from './hydrostatics.ts';

interface Lacking {
  why: string;
  remedy: string;
}

/**
 * For the marks. With length and beam at the waterline all the rest is estimated, so that of `hydro` only these two can be
 * lacking.
 */
export function lackedForMarks({ waterlineLength, beam }: Hydrostatics): Lacking {
  const lacking = [...(waterlineLength ? [] : ['length']), ...(beam ? [] : ['greatest beam'])];
  return {
    why: notKnown(lacking, ' at the waterline'),
    remedy: `Measure the ${joined(lacking)} at the waterline and enter ${lacking.length > 1 ? 'them' : 'it'}.`,
  };
}

/** For list, GM and roll. */
export function lackedForStability(vessel: Vessel, { displacement, vcg, beam, gm }: Hydrostatics): Lacking {
  // A timed roll tells GM as soon as her beam is known.
  const stiff = gm !== null || vessel.rollPeriod !== undefined;
  const lacking: [known: boolean, what: string, enter: string][] = [
    [displacement !== null, 'displacement', 'displacement'],
    [beam !== null, 'beam', 'greatest beam at the waterline'],
    [vcg !== null, 'centre of gravity', 'draughts'],
  ];
  const unknown = lacking.filter(([known]) => !known);
  const enter = unknown.map(([, , field]) => field);
  const orders = [...(enter.length > 0 ? [`enter her ${joined(enter)}`] : []), ...(stiff ? [] : ['time her roll'])];
  const order = orders.join(', and ');
  return {
    why: notKnown([...unknown.map(([, what]) => what), ...(stiff ? [] : ['GM'])]),
    remedy: `${order.charAt(0).toUpperCase()}${order.slice(1)}.`,
  };
}

function notKnown(things: string[], where = ''): string {
  return `Her ${joined(things)}${where} ${things.length > 1 ? 'are' : 'is'} not known.`;
}

/** `a`, `a and b`, `a, b and c`. */
function joined(things: string[]): string {
  return things.join(', ').replace(/, (?=[^,]*$)/, ' and ');
}
