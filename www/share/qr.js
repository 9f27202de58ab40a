// A QR code of bytes (ISO/IEC 18004), with the least error correction: the longest text fits, and a
// screen has no scratches. The tables and the placing follow the standard; the whole is held against
// a reader of other makers in the browser tests.

/** Codewords of error correction a block, and blocks, at level L, by version from 1. */
const EC = [7, 10, 15, 20, 26, 18, 20, 24, 30, 18, 20, 24, 26, 30, 22, 24, 28, 30, 28, 28, 28, 28, 30, 30, 26, 28, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30];
const BLOCKS = [1, 1, 1, 1, 1, 2, 2, 2, 2, 4, 4, 4, 4, 4, 6, 6, 6, 6, 7, 8, 8, 9, 9, 10, 12, 12, 12, 13, 14, 15, 16, 17, 18, 19, 19, 20, 21, 22, 24, 25];
/** Level L in the format's own two bits. */
const LEVEL = 1;

/** Where the small squares stand, by their middle, along each side.
 * @param {number} version */
function alignments(version) {
  if (version === 1) return [];
  const count = Math.floor(version / 7) + 2;
  const step = version === 32 ? 26 : Math.ceil((version * 4 + 4) / (count * 2 - 2)) * 2;
  const out = [6];
  for (let at = version * 4 + 10; out.length < count; at -= step) out.splice(1, 0, at);
  return out;
}

/** Modules left for data and correction, by the standard's own count.
 * @param {number} version */
function capacity(version) {
  let bits = (16 * version + 128) * version + 64;
  if (version >= 2) {
    const count = Math.floor(version / 7) + 2;
    bits -= (25 * count - 10) * count - 55;
    if (version >= 7) bits -= 36;
  }
  return bits;
}

/** @param {number} version */
const dataWords = (version) => Math.floor(capacity(version) / 8) - (EC[version - 1] ?? 0) * (BLOCKS[version - 1] ?? 0);

/** Product in the field of 256 elements over x⁸ + x⁴ + x³ + x² + 1.
 * @param {number} x
 * @param {number} y */
function times(x, y) {
  let out = 0;
  for (let i = 7; i >= 0; i -= 1) {
    out = (out << 1) ^ ((out >>> 7) * 0x11d);
    out ^= ((y >>> i) & 1) * x;
  }
  return out;
}

/** Coefficients of the generator of Reed and Solomon, the highest left out.
 * @param {number} degree */
function generator(degree) {
  const out = new Array(degree).fill(0);
  out[degree - 1] = 1;
  let root = 1;
  for (let i = 0; i < degree; i += 1) {
    for (let j = 0; j < degree; j += 1) out[j] = times(out[j], root) ^ (out[j + 1] ?? 0);
    root = times(root, 2);
  }
  return out;
}

/**
 * @param {number[]} data
 * @param {number[]} divisor
 */
function remainder(data, divisor) {
  const out = divisor.map(() => 0);
  for (const byte of data) {
    const factor = byte ^ (out.shift() ?? 0);
    out.push(0);
    divisor.forEach((value, i) => (out[i] = (out[i] ?? 0) ^ times(value, factor)));
  }
  return out;
}

/**
 * The codewords in the order they are placed: blocks side by side, then their correction.
 * @param {Uint8Array} bytes
 * @param {number} version
 */
function codewords(bytes, version) {
  /** @type {number[]} */
  const bits = [];
  const put = (/** @type {number} */ value, /** @type {number} */ length) => {
    for (let i = length - 1; i >= 0; i -= 1) bits.push((value >>> i) & 1);
  };
  put(4, 4);
  put(bytes.length, version < 10 ? 8 : 16);
  for (const byte of bytes) put(byte, 8);
  const room = dataWords(version) * 8;
  put(0, Math.min(4, room - bits.length));
  put(0, (8 - (bits.length % 8)) % 8);
  for (let pad = 0xec; bits.length < room; pad ^= 0xec ^ 0x11) put(pad, 8);
  const words = Array.from({ length: bits.length / 8 }, (_, i) => bits.slice(8 * i, 8 * i + 8).reduce((sum, bit) => sum * 2 + bit, 0));

  const count = BLOCKS[version - 1] ?? 1;
  const correction = EC[version - 1] ?? 0;
  const all = Math.floor(capacity(version) / 8);
  const short = count - (all % count);
  const size = Math.floor(all / count) - correction;
  const divisor = generator(correction);
  let from = 0;
  const blocks = Array.from({ length: count }, (_, i) => {
    const length = size + (i < short ? 0 : 1);
    const data = words.slice(from, from + length);
    from += length;
    return { data, check: remainder(data, divisor) };
  });
  /** @type {number[]} */
  const out = [];
  for (let i = 0; i <= size; i += 1) for (const { data } of blocks) if (i < data.length) out.push(data[i] ?? 0);
  for (let i = 0; i < correction; i += 1) for (const { check } of blocks) out.push(check[i] ?? 0);
  return out;
}

/** @type {((x: number, y: number) => boolean)[]} Which modules each mask turns over. */
const MASKS = [
  (x, y) => (x + y) % 2 === 0,
  (_, y) => y % 2 === 0,
  (x) => x % 3 === 0,
  (x, y) => (x + y) % 3 === 0,
  (x, y) => (Math.floor(x / 3) + Math.floor(y / 2)) % 2 === 0,
  (x, y) => ((x * y) % 2) + ((x * y) % 3) === 0,
  (x, y) => (((x * y) % 2) + ((x * y) % 3)) % 2 === 0,
  (x, y) => (((x + y) % 2) + ((x * y) % 3)) % 2 === 0,
];

/**
 * A number with its check bits, by division.
 * @param {number} value
 * @param {number} bits of the check
 * @param {number} divisor
 */
function checked(value, bits, divisor) {
  let rest = value;
  for (let i = 0; i < bits; i += 1) rest = (rest << 1) ^ ((rest >>> (bits - 1)) * divisor);
  return (value << bits) | rest;
}

/** How badly a square reads: long runs, blocks of four, what looks like a corner, too dark or light.
 * @param {boolean[][]} square */
function penalty(square) {
  const n = square.length;
  let sum = 0;
  let dark = 0;
  const corner = "10111010000";
  const back = "00001011101";
  for (let a = 0; a < n; a += 1) {
    for (const line of [square[a] ?? [], square.map((row) => row[a] ?? false)]) {
      let run = 0;
      for (let b = 0; b < n; b += 1) {
        run = b > 0 && line[b] === line[b - 1] ? run + 1 : 1;
        if (run === 5) sum += 3;
        else if (run > 5) sum += 1;
      }
      const text = line.map((on) => (on ? "1" : "0")).join("");
      for (const sign of [corner, back]) for (let at = text.indexOf(sign); at >= 0; at = text.indexOf(sign, at + 1)) sum += 40;
    }
    for (let b = 0; b < n; b += 1) {
      if (square[a]?.[b]) dark += 1;
      const four = [square[a]?.[b], square[a]?.[b + 1], square[a + 1]?.[b], square[a + 1]?.[b + 1]];
      if (a + 1 < n && b + 1 < n && four.every((on) => on === four[0])) sum += 3;
    }
  }
  return sum + 10 * Math.floor(Math.abs(dark * 20 - n * n * 10) / (n * n));
}

/**
 * @param {string} text
 * @returns {boolean[][] | null} rows of modules, true is dark; nothing when the text is too long
 */
export function qr(text) {
  const bytes = new TextEncoder().encode(text);
  const version = EC.findIndex((_, i) => bytes.length + (i < 9 ? 2 : 3) <= dataWords(i + 1)) + 1;
  if (version === 0) return null;
  const n = version * 4 + 17;
  const square = Array.from({ length: n }, () => new Array(n).fill(false));
  const fixed = Array.from({ length: n }, () => new Array(n).fill(false));
  const set = (/** @type {number} */ x, /** @type {number} */ y, /** @type {boolean} */ on) => {
    const [row, own] = [square[y], fixed[y]];
    if (!row || !own || x < 0 || x >= n) return;
    row[x] = on;
    own[x] = true;
  };
  for (let i = 0; i < n; i += 1) {
    set(6, i, i % 2 === 0);
    set(i, 6, i % 2 === 0);
  }
  for (const [cx, cy] of /** @type {[number, number][]} */ ([[3, 3], [n - 4, 3], [3, n - 4]])) {
    for (let dy = -4; dy <= 4; dy += 1) {
      for (let dx = -4; dx <= 4; dx += 1) {
        const far = Math.max(Math.abs(dx), Math.abs(dy));
        set(cx + dx, cy + dy, far !== 2 && far !== 4);
      }
    }
  }
  const places = alignments(version);
  const end = places.length - 1;
  places.forEach((cy, j) =>
    places.forEach((cx, i) => {
      // The three corners have larger ones.
      if ((i === 0 && j === 0) || (i === 0 && j === end) || (i === end && j === 0)) return;
      for (let dy = -2; dy <= 2; dy += 1) for (let dx = -2; dx <= 2; dx += 1) set(cx + dx, cy + dy, Math.max(Math.abs(dx), Math.abs(dy)) !== 1);
    }),
  );
  if (version >= 7) {
    const bits = checked(version, 12, 0x1f25);
    for (let i = 0; i < 18; i += 1) {
      const on = ((bits >>> i) & 1) === 1;
      set(n - 11 + (i % 3), Math.floor(i / 3), on);
      set(Math.floor(i / 3), n - 11 + (i % 3), on);
    }
  }
  const format = (/** @type {number} */ mask) => {
    const bits = checked((LEVEL << 3) | mask, 10, 0x537) ^ 0x5412;
    for (let i = 0; i < 15; i += 1) {
      const on = ((bits >>> i) & 1) === 1;
      if (i < 6) set(8, i, on);
      else if (i < 8) set(8, i + 1, on);
      else if (i === 8) set(7, 8, on);
      else set(14 - i, 8, on);
      if (i < 8) set(n - 1 - i, 8, on);
      else set(8, n - 15 + i, on);
    }
    set(8, n - 8, true);
  };
  format(0);
  const bits = codewords(bytes, version).flatMap((word) => [7, 6, 5, 4, 3, 2, 1, 0].map((i) => ((word >>> i) & 1) === 1));
  let at = 0;
  for (let right = n - 1; right >= 1; right -= 2) {
    // The column of the small clock is left out.
    if (right === 6) right = 5;
    for (let k = 0; k < n; k += 1) {
      const y = ((right + 1) & 2) === 0 ? n - 1 - k : k;
      for (const x of [right, right - 1]) {
        const row = square[y];
        if (!row || fixed[y]?.[x]) continue;
        row[x] = bits[at] ?? false;
        at += 1;
      }
    }
  }
  let best = { mask: 0, sum: Infinity };
  const turn = (/** @type {number} */ mask) =>
    square.forEach((row, y) => row.forEach((on, x) => (row[x] = fixed[y]?.[x] ? on : on !== MASKS[mask]?.(x, y))));
  for (let mask = 0; mask < 8; mask += 1) {
    turn(mask);
    format(mask);
    const sum = penalty(square);
    if (sum < best.sum) best = { mask, sum };
    turn(mask);
  }
  turn(best.mask);
  format(best.mask);
  return square;
}
