import { readWhole } from "../../../../dist/bench/read-with-evenhead.js";
import { serve } from "./live.mjs";

serve((path) => readWhole(path));
