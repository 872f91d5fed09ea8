import { join } from "node:path";
import { type DirectoryClient, postgresClient, sqliteClient } from "./clients";
import type { FolderLock } from "./folderLock";
import { dataFolder, postgresUrl } from "./folders";
import type { Prisma } from "./generated/sqlite/directory/client";
import { holdDataFolder } from "./inUse";
import { joinedReads } from "./joined/reads";
import { postgresStore, type Store, sqliteStore } from "./store";

export type DirectoryTx = Prisma.TransactionClient;
export type Directory = Store<DirectoryClient, DirectoryTx>;

const kept = globalThis as unknown as {
  throttlewrightDirectory?: Directory;
  throttlewrightInUse?: FolderLock;
};

export function directoryFile(): string {
  return join(dataFolder(), "directory.sqlite");
}

/** The directory database of this server; opened once. */
export function directory(): Directory {
  kept.throttlewrightDirectory ??= joined(open());
  return kept.throttlewrightDirectory;
}

export function isDirectoryOpen(): boolean {
  return kept.throttlewrightDirectory !== undefined;
}

export async function closeDirectory(): Promise<void> {
  await kept.throttlewrightDirectory?.close();
  delete kept.throttlewrightDirectory;
  kept.throttlewrightInUse?.release();
  delete kept.throttlewrightInUse;
}

function joined(store: Directory): Directory {
  return { ...store, read: joinedReads(store.read, "directory", "directory") };
}

function open(): Directory {
  if (postgresUrl())
    return postgresStore<DirectoryClient, DirectoryTx>(
      postgresClient("directory", "", "directory", "read"),
      postgresClient("directory", "", "directory", "write"),
    );
  // Whoever has opened the directory uses the folder: nothing is put back under it meanwhile.
  kept.throttlewrightInUse ??= holdDataFolder();
  const writer = sqliteClient("directory", directoryFile(), false);
  const reader = sqliteClient("directory", directoryFile(), true);
  return sqliteStore<DirectoryClient, DirectoryTx>(reader, writer);
}
