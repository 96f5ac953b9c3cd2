/** The program cannot serve; the message is for the person who starts it. */
export class StartFailed extends Error {
  override readonly name = 'StartFailed';
}
