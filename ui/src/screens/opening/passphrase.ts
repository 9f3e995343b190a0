// What a new passphrase must be. The notebook's key is only as strong as it.

/** Fewest characters of a new passphrase. */
export const SHORTEST = 12;

/** Says in one sentence what is wrong with a new passphrase; empty when nothing is. */
export function passphraseTrouble(passphrase: string, again: string): string {
  if ([...passphrase].length < SHORTEST) return `Write a passphrase of ${SHORTEST} characters or more, for example a few words.`;
  if (passphrase !== again) return "The two passphrases differ. Write the same one twice.";
  return "";
}
