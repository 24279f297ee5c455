/** Trouble that was foreseen: told in plain sentences, without a stack. */
export class Trouble extends Error {
  /**
   * @param {string} says what is wrong: what was wanted, what was found
   * @param {string} next what the person can do
   */
  constructor(says, next) {
    super(says);
    this.name = 'Trouble';
    this.next = next;
  }
}

/**
 * Runs a command of the project. Foreseen trouble ends it with a sentence and code 1; a bug keeps its stack.
 * @param {() => Promise<number>} work gives the exit code
 * @returns {Promise<void>}
 */
export async function runCommand(work) {
  try {
    process.exitCode = await work();
  } catch (cause) {
    if (!(cause instanceof Trouble)) throw cause;
    console.error(`\n${cause.message}\n${cause.next}`);
    process.exitCode = 1;
  }
}
