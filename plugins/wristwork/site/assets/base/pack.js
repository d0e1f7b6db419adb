/**
 * Values packed into an address: a version, then pieces, each with its length and a check of its own, so that
 * a link that was cut or damaged on its way still gives the pieces that are whole.
 *
 * Bytes: version, number of pieces, then for each piece its length, two bytes of check (CRC-16), its content.
 * Numbers are seven bits a byte, lowest first; all of it is written in base64url.
 */

const LONGEST_ADDRESS = 8000;
const MOST_PIECES = 200;

export class Writer {
  bytes = [];

  number(value) {
    let rest = value;
    while (rest > 127) {
      this.bytes.push((rest & 127) | 128);
      rest >>>= 7;
    }
    this.bytes.push(rest);
    return this;
  }

  text(words) {
    const encoded = new TextEncoder().encode(words);
    this.number(encoded.length);
    this.bytes.push(...encoded);
    return this;
  }
}

/** Reads what a `Writer` wrote; throws a RangeError where there is no more. */
export class Reader {
  #bytes;
  #at = 0;

  constructor(bytes) {
    this.#bytes = bytes;
  }

  /** Is there no more? */
  get isOver() {
    return this.#at >= this.#bytes.length;
  }

  number() {
    let value = 0;
    for (let shift = 0; shift < 28; shift += 7) {
      const [byte] = this.take(1);
      value |= (byte & 127) << shift;
      if (byte < 128) return value;
    }
    throw new RangeError("A number too long");
  }

  text() {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(this.take(this.number()));
  }

  take(count) {
    if (this.#at + count > this.#bytes.length) throw new RangeError("The end");
    this.#at += count;
    return this.#bytes.slice(this.#at - count, this.#at);
  }
}

/** The text for an address that holds these pieces (arrays of bytes). */
export function pack(version, pieces) {
  const writer = new Writer().number(version).number(pieces.length);
  for (const piece of pieces) {
    const check = crc16(piece);
    writer.number(piece.length);
    writer.bytes.push(check >> 8, check & 255, ...piece);
  }
  return btoa(String.fromCharCode(...writer.bytes)).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
}

/**
 * What a text from an address holds, whatever it is.
 *
 * @returns {{version: number|null, announced: number, pieces: (Uint8Array|null)[]}} null for a damaged piece; fewer
 *   pieces than announced where the rest is missing; version null where nothing can be read
 */
export function unpack(text) {
  const result = { version: null, announced: 0, pieces: [] };
  try {
    const reader = new Reader(readBase64(text));
    const version = reader.number();
    result.announced = Math.min(reader.number(), MOST_PIECES);
    result.version = version;
    while (result.pieces.length < result.announced) {
      const length = reader.number();
      const [high, low] = reader.take(2);
      const piece = reader.take(length);
      result.pieces.push(crc16(piece) === high * 256 + low ? piece : null);
    }
  } catch {
    // What was read so far is what there is.
  }
  return result;
}

function readBase64(text) {
  const [start] = text.slice(0, LONGEST_ADDRESS).match(/^[\w-]*/);
  // One letter alone holds no byte: the link was cut there.
  const whole = start.length % 4 === 1 ? start.slice(0, -1) : start;
  return Uint8Array.from(atob(whole.replaceAll("-", "+").replaceAll("_", "/")), (letter) => letter.charCodeAt(0));
}

/** CRC-16/CCITT-FALSE. */
function crc16(bytes) {
  let crc = 0xffff;
  for (const byte of bytes) {
    crc ^= byte << 8;
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 0x8000 ? ((crc << 1) ^ 0x1021) & 0xffff : (crc << 1) & 0xffff;
  }
  return crc;
}

/** What stands after the `#` of the address, with what chats make of it undone. */
export function fragment() {
  const text = location.hash.slice(1);
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
