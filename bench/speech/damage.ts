/** Files that claim to be voice notes and are damaged in every way that chance brings. */

/** Changes bytes, cuts, repeats, joins, lengthens or replaces a whole note. `random`: from 0 to 1. */
export function damaged(note: Buffer, random: () => number): Buffer {
  const place = (): number => Math.floor(random() * note.length);
  const noise = (length: number): Buffer =>
    Buffer.from(Array.from({ length }, () => Math.floor(random() * 256)));
  const ways: readonly (() => Buffer)[] = [
    () => {
      const copy = Buffer.from(note);
      const changes = 1 + Math.floor(random() * 40);
      for (let change = 0; change < changes; change += 1) copy[place()] = Math.floor(random() * 256);
      return copy;
    },
    () => note.subarray(0, place()),
    () => note.subarray(place()),
    () => Buffer.concat([note.subarray(0, place()), note.subarray(place())]),
    () => Buffer.concat([note, note]),
    () => Buffer.concat([note.subarray(0, 47), noise(Math.floor(random() * 4000))]),
    () => noise(Math.floor(random() * 4000)),
    () => Buffer.alloc(0),
    () => Buffer.alloc(Math.floor(random() * 2_500_000), 'OggS'),
    () => Buffer.from('RIFF\u00ff\u00ff\u00ff\u00ffWAVEfmt '),
    () => Buffer.from('ID3 and words that are no sound at all'),
    () => lying(note, random),
  ];
  return (ways[Math.floor(random() * ways.length)] ?? ((): Buffer => note))();
}

/** A whole note whose headers lie: channels, gain, position or the number of segments. */
function lying(note: Buffer, random: () => number): Buffer {
  const copy = Buffer.from(note);
  const spots = [5, 6, 26, 27, 36, 37, 38, 44, 46];
  copy[spots[Math.floor(random() * spots.length)] ?? 26] = Math.floor(random() * 256);
  return copy;
}
