import { words } from "./words";

/** Fetches a file that the server makes and saves it; answers what is wrong where there is none. */
export async function fetchFile(address: string, signal: AbortSignal): Promise<string | undefined> {
  try {
    const response = await fetch(address, { signal });
    if (!response.ok) return await response.text();
    save(await response.blob(), nameOf(response));
  } catch (cause) {
    if ((cause as Error).name !== "AbortError") return words.noFile;
  }
  return undefined;
}

function nameOf(response: Response): string {
  const said = /filename="([^"]+)"/.exec(response.headers.get("Content-Disposition") ?? "")?.[1];
  return said ?? "file";
}

function save(content: Blob, name: string): void {
  const address = URL.createObjectURL(content);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  // The browser has taken the file over once it has begun to save it.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
