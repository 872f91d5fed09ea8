import { directory, isDirectoryOpen } from "./directory";
import { postgresUrl } from "./folders";
import { migrationNames } from "./migrations";

/** The newest migration of a shop that this version knows. */
export function newestLevel(): string {
  return migrationNames("shop", postgresUrl() ? "postgresql" : "sqlite").at(-1) ?? "";
}

/** Notes in the directory that a shop is up to date. One that was `migrated` just now is looked at anew by all works. */
export async function noteLevel(database: string, migrated: boolean): Promise<void> {
  // Scripts and tests work on shops that no directory knows.
  if (!isDirectoryOpen()) return;
  const level = newestLevel();
  const known = await directory().read.shop.findUnique({ where: { database }, select: { level: true } });
  if (!known || (known.level === level && !migrated)) return;
  await directory().write(async (tx) => {
    const changes = { increment: migrated ? 1 : 0 };
    await tx.shop.updateMany({ where: { database }, data: { level, changes } });
    if (migrated) await tx.dueWork.deleteMany({ where: { shop: { database } } });
  });
}
