// Which files are worth sending to the program as the picture of a label.

/** Largest picture that is read: 20 MB, more than a telephone's photograph. */
export const LARGEST_BYTES = 20 * 1024 * 1024;

/** Says why a file is not read, in one sentence; empty where it may be. */
export function pictureTrouble({ name, size, type }: { name: string; size: number; type: string }): string {
  // Some systems do not say what a dropped file is; the program finds out.
  if (type !== "" && type !== "image/png" && type !== "image/jpeg") {
    return `${name} is not a PNG or JPEG picture. Save the photograph as one of these and try again.`;
  }
  if (size > LARGEST_BYTES) {
    const megabytes = (size / 1024 / 1024).toFixed(1);
    return `${name} has ${megabytes} MB, and at most 20 MB are read. Crop it to the label and try again.`;
  }
  return "";
}
