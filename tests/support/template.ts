import { copyFileSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import type { TestProject } from "vitest/node";
import { reconfigure } from "@/lib/configuration/configuration";
import { shopTemplate } from "@/lib/db/template";

declare module "vitest" {
  export interface ProvidedContext {
    /** An empty, migrated shop file; what a data folder's own template would be. */
    shopTemplate: string;
  }
}

/** Runs once before all test files: every migration is applied once for a run, in place of once for each file. */
export default async function makeTemplate(project: TestProject): Promise<() => void> {
  const folder = mkdtempSync(join(tmpdir(), "throttlewright-template-"));
  reconfigure({ DATA_DIR: folder });
  project.provide("shopTemplate", await shopTemplate());
  return () => rmSync(folder, { recursive: true, force: true });
}

/** Lays the template into a data folder, where the product looks for its own. */
export function layTemplate(template: string, folder: string): void {
  copyFileSync(template, join(folder, basename(template)));
}
