/** npm run bench:years: the books of a shop of ten years, in processor time; with --pages what its list pages weigh. */
const [what, ...asked] = process.argv.slice(2);
if (what === "--pages") await (await import("./pages")).weighPages(asked);
else await import("./books");

export {};
