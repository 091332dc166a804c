/** The names of papers and tables and of the tables' columns, ready to be put into another tongue like `words.ts`. */

export const PAPER_NAMES = {
  sawSheet: { title: 'Saw sheet', about: 'The stops in cutting order, then every bar drawn to scale.' },
  tags: { title: 'Tags', about: 'One tag a bundle, to cut out and tie on.' },
  tagList: { title: 'Tag list', about: 'The tags as plain text, for a paint marker.' },
  bundleSheet: { title: 'Bundle sheet', about: 'What to tie, bundle by bundle, with the mass to expect.' },
  accessCards: { title: 'Access cards', about: 'For each keep-out, what comes out to get at it.' },
  tryFirst: { title: 'Try first', about: 'The hardest bundle, the first cuts, and templates at full size.' },
  makingList: { title: 'Making list', about: 'What must still be bought and made, with its reckoning.' },
  register: { title: 'Ballast register', about: 'For the ship’s papers: what is stowed where.' },
  holdDown: { title: 'Hold-down sheets', about: 'Which assumed loads are carried, by what, and how far it is used.' },
  balance: { title: 'Balance sheet', about: 'What the ballast does to her, and the readings to take.' },
  stowage: { title: 'Stowage sheets', about: 'The loading sequence, then each void tier by tier.' },
} as const;

export const FILE_WORDS = {
  stops: { title: 'Stops', heads: ['stop mm', 'pieces', 'so far', 'cuts', 'minutes', 'sections', 'bars'] },
  pieces: {
    title: 'Pieces',
    heads: ['bar', 'lot', 'bar length mm', 'piece', 'from mm', 'to mm', 'length mm', 'bundle'],
  },
  remainders: { title: 'Remainders', heads: ['bar', 'lot', 'from mm', 'to mm', 'length mm', 'fate'] },
  bundles: {
    title: 'Bundles',
    heads: [
      'bundle',
      'void',
      'void name',
      'run',
      'tier',
      'order',
      'section',
      'bars',
      'length mm',
      'mass kg',
      'limit kg',
      'along mm',
      'across mm',
      'up mm',
      'size along mm',
      'size across mm',
      'size up mm',
      'pieces',
    ],
  },
  voids: {
    title: 'Voids',
    heads: ['void', 'name', 'bars lie', 'bundles', 'mass kg', 'fill', 'centre x m', 'centre y m', 'centre z m'],
  },
  loading: {
    title: 'Loading sequence',
    heads: ['no.', 'bundle', 'void', 'order', 'mass kg', 'aboard kg', 'moment kg m', 'quarter'],
  },
  making: { title: 'Making list', heads: ['group', 'what', 'how much', 'reckoned from'] },
} as const;
