/** The server that browser tests run against: a production build on its own port with data of its own. */
export const E2E = {
  port: Number(process.env.E2E_PORT ?? 3471),
  url: `http://localhost:${process.env.E2E_PORT ?? 3471}`,
  data: process.env.E2E_DATA ?? ".tmp/e2e-data",
  password: process.env.E2E_PASSWORD ?? "needle-bowl-float-2718",
} as const;
