import { dirname } from "node:path";
import { fileURLToPath } from "node:url";

const root = dirname(fileURLToPath(import.meta.url));

/** @type {import("next").NextConfig} */
export default {
  reactStrictMode: true,
  poweredByHeader: false,
  distDir: process.env.NEXT_DIST ?? ".next",
  // `npm run bench` builds pages to compare with as well, into a folder of its own: page.bench.tsx is a page of no other build.
  ...(process.env.BENCH_BUILD === "on" ? { pageExtensions: ["tsx", "ts", "bench.tsx"] } : {}),
  // The same source is the same build, wherever it was made: a page of one machine's may go on with another's.
  generateBuildId: () => process.env.BUILT_FROM?.slice(0, 20) ?? null,
  // Types are checked by `npm run check`: the start of a server need not wait for them.
  typescript: { ignoreBuildErrors: true },
  experimental: {
    turbopackFileSystemCacheForBuild: false,
    turbopackSourceMaps: false,
    authInterrupts: true,
    serverActions: { bodySizeLimit: "6mb" },
  },
  // A lockfile above this folder must not be taken for the root.
  turbopack: { root },
  outputFileTracingRoot: root,
  serverExternalPackages: [
    "better-sqlite3",
    "pdfmake",
    "@node-rs/argon2",
    "date-holidays",
    "@prisma/adapter-better-sqlite3",
    "@prisma/adapter-pg",
    "pg",
    "piscina",
    "esbuild",
    "sharp",
    "heic-decode",
    "@zxcvbn-ts/core",
    "@zxcvbn-ts/language-common",
    "@zxcvbn-ts/language-en",
    "otplib",
    "@aws-sdk/client-s3",
  ],
};
