import { expect, it } from "vitest";
import { folderIn, pdfIn } from "./paths";

it("stays in the folder of the single paper", () => {
  expect(folderIn("/home/a/Documents/operative-note.pdf")).toBe("/home/a/Documents/papers");
  expect(pdfIn("C:\\Users\\a\\operative-note.pdf")).toBe("C:\\Users\\a\\papers.pdf");
  expect(pdfIn("operative-note.pdf"), "a file without a folder").toBe("papers.pdf");
});
