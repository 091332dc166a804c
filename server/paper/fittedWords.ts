/** Words about what is fitted to hold a stow down, and where: on its sheet and on its page. */
export const FITTED_WORDS = {
  title: 'What is fitted, and where',
  above: 'From above',
  across: (mark: string, along: string) => `Across at ${mark}, ${along} mm along`,
  acrossAssumed: (mark: string) => `Across where ${mark} is taken to lie: its place is not stated`,
  /** The end from which a void is measured, and the other. */
  ends: {
    'fore-and-aft': ['after', 'forward'],
    athwartships: ['port', 'starboard'],
  },
  measured: (end: string, other: string) =>
    `Places are the middle of each, measured inside the void from its ${end} end; the figure from the ${other} end is to check by. Across, each lies half-way between the sides, which is assumed.`,
  heads: { mark: 'mark', what: 'what it is', over: 'over', fixed: 'how it is made fast' },
  from: (end: string) => `mm from ${end} end`,
  fromFeet: (end: string) => `from ${end} end (mm)`,
  fromIn: (end: string) => `from ${end} end, mm below`,
  unsettled: 'not stated',
  settle:
    'Where a place is not stated, whoever fits it settles it within what the working takes for granted, and then enters it. Drawn dashed, it is no measure to fit by.',
  bare: 'Nothing is entered that could be fitted.',
  unplanned:
    'Its stow is not drawn: no plan holds this void as it is now. Which run each lies over is told once it is planned.',
} as const;
