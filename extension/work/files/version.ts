/** The program's version. */
declare const ROLLBOOK_VERSION: string;

/** The program's version, from package.json by way of the bundler. */
export const VERSION: string = ROLLBOOK_VERSION;
