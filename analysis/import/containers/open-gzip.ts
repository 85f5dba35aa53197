import { Gunzip } from "fflate";
import { type ArchiveDamage, ImportError } from "../../../shared/problems/import-problem";
import type { LogFile } from "../import-log";
import { GzipSum } from "./gzip-sum";
import { MOST_UNPACKED, type OpenedFile } from "./open-containers";

/** Packed bytes unpacked at a time: they may grow a thousandfold (RFC 1951), and what they give is held at once. */
const PIECE = 16 * 1024;

/**
 * A gzip file unpacked as it is read, anew each time; never held as a whole. What a file that was cut off still holds is read, and it is told. One whose
 * check sum does not fit is refused: somewhere in it stand wrong numbers, and nothing shows where.
 */
export function openGzip(file: LogFile): OpenedFile {
  let isCut = false;
  const open = () => unpack(file, (cut) => (isCut = cut));
  return { name: file.name, bytes: file.bytes, sha256: file.sha256, mayBeLeftOut: false, open, wasCut: () => isCut };
}

/** @param tell whether the file stops before its packed content is over, once it was read to its end */
async function* unpack(file: LogFile, tell: (cut: boolean) => void): AsyncGenerator<Uint8Array> {
  const damaged = (why: ArchiveDamage) => new ImportError({ id: "damaged-archive", file: file.name, why });
  let ready: Uint8Array[] = [];
  let unpacked = 0;
  const sum = new GzipSum();
  const gunzip = new Gunzip((data) => {
    sum.add(data);
    ready.push(data);
  });
  gunzip.onmember = (at) => sum.member(at);
  for await (const chunk of file.open()) {
    for (let at = 0; at < chunk.length; at += PIECE) {
      const piece = chunk.slice(at, at + PIECE);
      sum.packed(piece);
      try {
        gunzip.push(piece, false);
      } catch (error) {
        throw damaged({ message: error instanceof Error ? error.message : String(error) });
      }
      for (const data of ready) {
        unpacked += data.length;
        if (unpacked > 4 * MOST_UNPACKED)
          throw new ImportError({ id: "too-large", file: file.name, what: "unpacked-size", limit: 4 * MOST_UNPACKED });
        yield data;
      }
      ready = [];
    }
  }
  const cut = stopsEarly(gunzip);
  tell(cut);
  if (cut && unpacked === 0) throw damaged("cut-before-content");
  if (!cut && !sum.agrees()) throw damaged("check-sum");
}

/** A last push of nothing: the unpacker complains where it is still inside a block. */
function stopsEarly(gunzip: Gunzip): boolean {
  try {
    gunzip.push(new Uint8Array(0), true);
    return false;
  } catch {
    return true;
  }
}
