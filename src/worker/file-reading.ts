/** All that turns files into a record, in one piece to load. */
export { importLog } from "../../analysis/import/import-log";
