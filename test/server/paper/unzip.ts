/** An archive read back. */
import { inflateRawSync } from 'node:zlib';

/** Names and contents of a ZIP, by its central directory. */
export function unzip(zip: Buffer): Map<string, Buffer> {
  const files = new Map<string, Buffer>();
  const end = zip.lastIndexOf(Buffer.from('PK\u0005\u0006', 'latin1'));
  let at = zip.readUInt32LE(end + 16);
  for (let n = zip.readUInt16LE(end + 10); n > 0; n -= 1) {
    const [method, size] = [zip.readUInt16LE(at + 10), zip.readUInt32LE(at + 20)];
    const [nameLength, extra, comment] = [28, 30, 32].map((offset) => zip.readUInt16LE(at + offset)) as [
      number,
      number,
      number,
    ];
    const local = zip.readUInt32LE(at + 42);
    const start = local + 30 + zip.readUInt16LE(local + 26) + zip.readUInt16LE(local + 28);
    const body = zip.subarray(start, start + size);
    files.set(zip.toString('utf8', at + 46, at + 46 + nameLength), method === 8 ? inflateRawSync(body) : body);
    at += 46 + nameLength + extra + comment;
  }
  return files;
}
