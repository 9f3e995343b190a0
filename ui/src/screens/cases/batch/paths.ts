// Where several papers go, taken from where one paper would go. Paths are those of the system, with strokes either way.

function beside(path: string, name: string): string {
  const end = Math.max(path.lastIndexOf("/"), path.lastIndexOf("\\"));
  return path.slice(0, end + 1) + name;
}

/** Gives a folder for papers in the folder of a file. */
export function folderIn(file: string): string {
  return beside(file, "papers");
}

/** Gives one PDF for papers in the folder of a file. */
export function pdfIn(file: string): string {
  return beside(file, "papers.pdf");
}
