// A process of its own: node what-if-child.mjs LOG SITE ROUNDS, prints one line of JSON.
import { timeWhatIf } from "../../../dist/bench/what-if-with-evenhead.js";

const [path, site, rounds] = process.argv.slice(2);
console.log(JSON.stringify(await timeWhatIf(path, site, [3600, 604_799], Number(rounds))));
