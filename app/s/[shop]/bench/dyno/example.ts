/** Four invented pulls, two before and two after, as a dyno might write them. */
export function exampleRuns(): string {
  const runs = [
    { name: "before 1", scale: 1, shift: 0 },
    { name: "before 2", scale: 1.006, shift: 40 },
    { name: "after 1", scale: 1.052, shift: 90 },
    { name: "after 2", scale: 1.047, shift: 60 },
  ];
  const rows = runs.flatMap(({ name, scale, shift }) =>
    Array.from({ length: 26 }, (_, i) => {
      const rpm = 2500 + i * 180;
      const torque = scale * (50 - 13 * ((rpm - 4600 - shift) / 2400) ** 2);
      return `${rpm},${torque.toFixed(2)},${name.startsWith("after") ? "0.89" : "0.94"},24.5,968.0,41,${name}`;
    }),
  );
  return `rpm,torque Nm,lambda,temperature C,pressure hPa,humidity %,run\n${rows.join("\n")}\n`;
}
