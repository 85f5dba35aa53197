import { writeWhole } from "../../src/command-line/write-whole";

/** Writes one file over and over, now all A, now all B, until it is killed: whoever looks must always find one of the two whole. */
const [path, size] = process.argv.slice(2);
const contents = ["A", "B"].map((letter) => letter.repeat(Number(size)));
for (let turn = 0; ; turn++) {
  await writeWhole(path, turn % 3 === 2 ? contents[turn % 2].match(/.{1,4096}/g)! : contents[turn % 2]);
  process.stdout.write(".");
}
