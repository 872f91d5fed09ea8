import { execFileSync } from "node:child_process";
import { chownSync, existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { freePort, NoServer, type PrivateServer, serverUser } from "./postgres";

const PROGRAM = "/usr/sbin/pgbouncer";

/** Fewer sessions than one process asks for, so that each is handed on many times. */
const SESSIONS = 6;

/**
 * PgBouncer in transaction mode before a private server: a session of the server is somebody's for one transaction only.
 * Throws `NoServer` where it is not installed. The caller must call `stop`, before the server's.
 */
export async function startPgBouncer(server: PrivateServer): Promise<PrivateServer> {
  if (!existsSync(PROGRAM))
    throw new NoServer("PgBouncer is not installed (Debian: apt-get install pgbouncer).");
  const behind = new URL(server.url);
  const folder = mkdtempSync(join(tmpdir(), "throttlewright-bouncer-"));
  const port = await freePort();
  const users = join(folder, "users");
  const settings = join(folder, "pgbouncer.ini");
  const pidFile = join(folder, "pid");
  writeFileSync(users, `"${behind.username}" "${behind.password}"\n`, { mode: 0o600 });
  const lines = [
    "[databases]",
    `* = host=127.0.0.1 port=${behind.port}`,
    "[pgbouncer]",
    "listen_addr = 127.0.0.1",
    `listen_port = ${port}`,
    "unix_socket_dir =",
    "auth_type = scram-sha-256",
    `auth_file = ${users}`,
    "pool_mode = transaction",
    `default_pool_size = ${SESSIONS}`,
    `logfile = ${join(folder, "log")}`,
    `pidfile = ${pidFile}`,
  ];
  writeFileSync(settings, `${lines.join("\n")}\n`, { mode: 0o600 });
  const owner = serverUser();
  for (const path of owner ? [folder, users, settings] : [])
    chownSync(path, owner?.uid ?? 0, owner?.gid ?? 0);
  execFileSync(PROGRAM, ["--daemon", "--quiet", settings], { ...owner, cwd: folder, stdio: "pipe" });
  return {
    url: Object.assign(new URL(server.url), { port: String(port) }).href,
    stop: () => {
      execFileSync("/bin/sh", ["-c", `kill -INT "$(cat '${pidFile}')"`]);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
