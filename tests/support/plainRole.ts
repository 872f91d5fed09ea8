import { randomBytes } from "node:crypto";
import { inPostgres } from "@/lib/db/postgres";

/**
 * Makes a role on a private server that may make databases, schemas and roles, and no extension, not even a trusted one, which the owner
 * of a database may make elsewhere. Answers the server's address for it.
 */
export async function plainRole(url: string): Promise<string> {
  const password = randomBytes(18).toString("hex");
  const at = (pathname: string) => Object.assign(new URL(url), { pathname }).href;
  // Databases are copies of template1, and the one that is there was made before.
  for (const database of ["/template1", new URL(url).pathname])
    await inPostgres(at(database), (client) => client.query(REFUSING));
  await inPostgres(url, (client) =>
    client.query(
      `CREATE ROLE plain LOGIN CREATEDB CREATEROLE PASSWORD '${password}'; GRANT CREATE ON DATABASE postgres TO plain`,
    ),
  );
  return Object.assign(new URL(url), { username: "plain", password }).href;
}

const REFUSING = `
  CREATE FUNCTION refuse_extension() RETURNS event_trigger LANGUAGE plpgsql AS $$
  BEGIN
    IF current_user = 'plain' THEN
      RAISE EXCEPTION 'permission denied to create extension' USING ERRCODE = 'insufficient_privilege';
    END IF;
  END $$;
  CREATE EVENT TRIGGER refuse_extension ON ddl_command_start WHEN TAG IN ('CREATE EXTENSION') EXECUTE FUNCTION refuse_extension()`;
