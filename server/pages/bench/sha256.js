// SHA-256 of bytes, in hexadecimal: the browser's own where it has one, reckoned here where plain http leaves it out.

/** Gives the digest of an ArrayBuffer. */
export async function sha256(bytes) {
  const made = globalThis.crypto?.subtle ? new Uint8Array(await crypto.subtle.digest("SHA-256", bytes)) : reckoned(new Uint8Array(bytes));
  return Array.from(made, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** The same by FIPS 180-4, section 6.2; gives 32 bytes. */
export function reckoned(bytes) {
  const state = firstState();
  const words = new DataView(padded(bytes).buffer);
  const schedule = new Uint32Array(64);
  for (let block = 0; block < words.byteLength; block += 64) {
    for (let t = 0; t < 16; t += 1) schedule[t] = words.getUint32(block + 4 * t);
    for (let t = 16; t < 64; t += 1) schedule[t] = small(schedule[t - 2], 17, 19, 10) + schedule[t - 7] + small(schedule[t - 15], 7, 18, 3) + schedule[t - 16];
    mix(state, schedule);
  }
  const out = new DataView(new ArrayBuffer(32));
  state.forEach((word, place) => out.setUint32(4 * place, word));
  return new Uint8Array(out.buffer);
}

function mix(state, schedule) {
  let [a, b, c, d, e, f, g, h] = state;
  for (let t = 0; t < 64; t += 1) {
    const first = (h + large(e, 6, 11, 25) + ((e & f) ^ (~e & g)) + ROUNDS[t] + schedule[t]) | 0;
    const second = (large(a, 2, 13, 22) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + first) | 0, c, b, a, (first + second) | 0];
  }
  [a, b, c, d, e, f, g, h].forEach((word, place) => { state[place] += word; });
}

function padded(bytes) {
  const whole = new Uint8Array(Math.ceil((bytes.length + 9) / 64) * 64);
  whole.set(bytes);
  whole[bytes.length] = 0x80;
  new DataView(whole.buffer).setBigUint64(whole.length - 8, BigInt(bytes.length) * 8n);
  return whole;
}

const turned = (word, by) => (word >>> by) | (word << (32 - by));
const large = (word, a, b, c) => turned(word, a) ^ turned(word, b) ^ turned(word, c);
const small = (word, a, b, c) => turned(word, a) ^ turned(word, b) ^ (word >>> c);

/** The first 32 bits behind the point of the roots of the first primes, as the standard makes its constants. */
function behindThePoint(root) {
  return PRIMES.map((prime) => { const value = root(prime); return Math.floor((value - Math.floor(value)) * 2 ** 32) >>> 0; });
}

const PRIMES = Array.from({ length: 312 }, (_, number) => number).filter((number) => number > 1 && !Array.from({ length: number }, (_, by) => by).some((by) => by > 1 && number % by === 0));
const ROUNDS = behindThePoint(Math.cbrt);
const firstState = () => Uint32Array.from(behindThePoint(Math.sqrt).slice(0, 8));
