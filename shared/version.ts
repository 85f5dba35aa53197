/** Version of this program, as findings documents and visit files carry it; a test holds it to package.json. */
export const PROGRAM_VERSION = "0.1.0";
