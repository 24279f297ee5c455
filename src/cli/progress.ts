/** Says on the terminal what is being done; where the errors go elsewhere (a file, a pipe) it says nothing. */
export function progress(words: string): void {
  if (process.stderr.isTTY) process.stderr.write(`${words}\n`);
}
