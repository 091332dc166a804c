/** What the hold-down sheets and the page of a hold-down say. */
import { percentUsed } from '../../src/hold/holdDown.ts';

export const HOLD_WORDS = {
  title: 'Hold-down sheets',
  intro:
    'Which assumed loads are carried by what was entered. It approves nothing: a surveyor or a designer looks at the stow and its fastening before she goes to sea.',
  none: 'No bundles are stowed: there is nothing to hold down.',
  void: (title: string, mass: string) => `${title}: ${mass} to hold`,
  scaled: 'That is what the scale said where bundles were weighed, else as planned.',
  beside: (mass: string) => `Beside this plan ${mass} lie in it that are not counted here: they have to be held, too.`,
  open: 'Nothing is entered for these voids',
  loads: 'What is carried',
  heads: { case: 'assumed load', load: 'load', by: 'carried by', carries: 'carries', used: 'used' },
  nothing: 'nothing entered holds this way',
  nothingCounted: (marks: string) => `what is entered is not counted: ${marks}`,
  besides: (others: readonly string[]) => `not added: ${others.join('; ')}`,
  notCarried: 'NOT CARRIED',
  used: (share: number) => {
    const percent = percentUsed(share);
    if (share > 1) return `${percent}: NOT CARRIED`;
    if (share > 0.8) return `${percent}: nearly all of it`;
    return share > 0.5 ? `${percent}: more than half` : `${percent}: half or less`;
  },
  lighter: (reason: string) => `Lighter than usual, because: ${reason}`,
  heldLighter: (reason: string) =>
    `The lighter loads stated are carried, because: ${reason}. The usual ones are not: this void stays not secured.`,
  working: 'Working',
  alone: 'What is unlike is never added up, since it does not share a load as its strengths: the best counts alone.',
  asStated: 'What blocks a side carries what is stated of it: nothing of that is worked out here.',
  assumed: 'Assumed, to be confirmed',
  least: 'The least that would carry it',
  or: ' Or: ',
  minds: 'To mind, and to look at after the first day at sea',
  looked: ['Bars, straps and bolts as entered, at the places stated', 'Nothing chafes or has moved', 'Date, name'],
} as const;
