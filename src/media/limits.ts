/** How much a recording may ask of the machine. */

/** Longest recording, seconds. */
export const LONGEST_S = 60;
/** Largest file, bytes. */
export const LARGEST_BYTES = 2_000_000;
/** Longest that listening to one recording may take, milliseconds. */
export const LONGEST_MS = 20_000;
/** Samples a second that recognition works on. */
export const SAMPLE_RATE = 16_000;
/** A decoded recording of the longest length with its header, 16 bits a sample, two channels at most. */
export const LARGEST_DECODED_BYTES = (LONGEST_S + 1) * SAMPLE_RATE * 2 * 2;
/** Address space of a child process, bytes. Each needs well under 100 MB of it. */
export const CHILD_MEMORY_BYTES = 400_000_000;
/** Most that is kept of what a child process prints, bytes. */
export const MOST_PRINTED_BYTES = 1_000_000;
