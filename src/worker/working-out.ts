/** All that follows the reading of a record, in one piece to load. */
export { analyse } from "../../analysis/analyse";
export { writeFindings } from "../../analysis/document/findings-document";
export { makeLook } from "../charts/looks/make-look";
