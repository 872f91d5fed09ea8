/** What a command says to whoever ran it: its product, not the log. */
export function say(line: string): void {
  process.stdout.write(`${line}\n`);
}

/** What a command says when it could not do its work. */
export function complain(line: string): void {
  process.stderr.write(`${line}\n`);
}
