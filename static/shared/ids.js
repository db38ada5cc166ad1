// UUID version 7 (RFC 9562): 48 bits of time, then randomness.

export function uuid7(now = Date.now()) {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  for (let n = 0; n < 6; n += 1) bytes[n] = Math.floor(now / 2 ** (8 * (5 - n))) % 256;
  bytes[6] = 0x70 | (bytes[6] & 0x0f);
  bytes[8] = 0x80 | (bytes[8] & 0x3f);
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}
