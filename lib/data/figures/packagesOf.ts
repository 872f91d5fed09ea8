/** What a quote or a job is counted under: the packages of its works, each once. */
export function packagesOf(
  works: readonly { readonly packageRevision: { readonly package: { readonly name: string } } | null }[],
): string {
  const names = works.flatMap((work) => work.packageRevision?.package.name ?? []);
  return [...new Set(names)].join(" + ") || "No package";
}
