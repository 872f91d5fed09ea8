import { command } from "../command";

/** Makes the sample shop of one person, in a process of its own: see round.ts. */
await command(async () => {
  const { openSample } = await import("@/demo/sample");
  await openSample(process.argv[2] ?? "", new Date());
  return 0;
});
