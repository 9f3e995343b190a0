// Names that are suggested for backups.

/** Puts the day into the name of a notebook's file, beside which the backup is suggested. */
export function backupName(path: string, day: Date): string {
  const date = [day.getFullYear(), day.getMonth() + 1, day.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
  return path.replace(/(\.evengap)?$/, ` backup ${date}.evengap`);
}
