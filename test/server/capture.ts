/** A stream that keeps what is written to it, for commands under test. */
import { Writable } from 'node:stream';

export class Capture extends Writable {
  text = '';
  isTTY = false;
  columns = 100;

  override _write(chunk: Buffer | string, _encoding: string, done: () => void): void {
    this.text += chunk.toString();
    done();
  }
}
