/** An invented ride at ten samples a second: five openings held, with the movements between them. */
export function exampleLog(): string {
  const held = [
    { throttle: 6, lambda: 0.93 },
    { throttle: 20, lambda: 1.02 },
    { throttle: 45, lambda: 1.01 },
    { throttle: 70, lambda: 0.94 },
    { throttle: 98, lambda: 0.9 },
  ];
  const rows = held.flatMap(({ throttle, lambda }, k) =>
    Array.from({ length: 30 }, (_, i) => {
      const wave = 0.012 * Math.sin(i * 1.7 + k);
      const settling = i < 5 ? 0.06 : 0;
      return `${((k * 30 + i) / 10).toFixed(1)},${throttle},${(lambda + wave + settling).toFixed(3)},${2300 + 42 * throttle}`;
    }),
  );
  return `time s,throttle %,lambda,rpm\n${rows.join("\n")}\n`;
}
