import { timesOf } from "../../shared/record/sampling";
import { remembered } from "../numerics/remember";

/** All instants of a sampling, shape [n], s, made once for all who go through them. */
export const instantsOf = remembered(timesOf);
