import { existsSync } from "node:fs";
import { join } from "node:path";

/**
 * The folder of outside references that tests may read: published example files of standards and test problems. It lies
 * beside the repository and is no part of it; a test that needs a file of it says so and is skipped where there is none.
 */
export const REFERENCES = join(import.meta.dirname, "../../../shared/checks");

/** A file or folder of the outside references; null where it is not there. */
export function reference(path: string): string | null {
  const found = join(REFERENCES, path);
  return existsSync(found) ? found : null;
}
