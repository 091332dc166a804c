/** The version that this copy of kentledge carries, as in package.json and in every plan's `engine`. */
export const VERSION = '0.1.0';
