/** The version of kentledge: as in package.json and in every plan's `engine`. */
export const VERSION = '0.1.0';
