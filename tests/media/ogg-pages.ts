/** Ogg pages made by hand, after RFC 3533 (section 6) and RFC 7845 (section 3). */

/** Remainder of the polynomial division, a bit at a time: slow and plain. */
function checksum(bytes: Buffer): number {
  let sum = 0;
  for (const byte of bytes) {
    sum ^= byte << 24;
    for (let bit = 0; bit < 8; bit += 1) sum = (sum << 1) ^ (sum < 0 ? 0x04c11db7 : 0);
  }
  return sum >>> 0;
}

/** A page with this content, at most 254 bytes; `samples` is its position. */
export function page(content: string, samples = 0, flags = 0): Buffer {
  const bytes = Buffer.alloc(28 + content.length);
  bytes.write('OggS', 'latin1');
  bytes[5] = flags;
  bytes.writeBigInt64LE(BigInt(samples), 6);
  bytes[26] = 1;
  bytes[27] = content.length;
  bytes.write(content, 28, 'latin1');
  bytes.writeUInt32LE(checksum(bytes), 22);
  return bytes;
}

/** Whole pages of a note that claims so many seconds. */
export function notePages(seconds: number): Buffer[] {
  return [
    page('OpusHead', 0, 2),
    page('OpusTags'),
    page('sound', 24_000),
    page('sound', seconds * 48_000, 4),
  ];
}
