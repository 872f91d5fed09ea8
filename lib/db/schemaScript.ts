import type pg from "pg";

/**
 * What makes a schema's things again, in an order that lets each find what it needs: the schema's name stands nowhere in
 * it, so that the search path says where they are made. It knows what migrations here make (enums, tables with their
 * serials and keys, indexes, functions, triggers); tests hold it against what pg_dump writes of a migrated schema.
 * Sources: PostgreSQL's system catalogue and its functions pg_get_…def, which leave out names that the search path finds.
 */
const BEFORE_ROWS = [
  `SELECT format('CREATE TYPE %I AS ENUM (%s)', typname, string_agg(quote_literal(enumlabel), ', ' ORDER BY enumsortorder)) AS sql
   FROM pg_type t JOIN pg_enum e ON e.enumtypid = t.oid WHERE typnamespace = $1 GROUP BY typname ORDER BY typname`,

  // Each is named with its schema by the server, which the transaction's search path does in its place.
  `SELECT replace(pg_get_functiondef(p.oid), format('FUNCTION %I.', nspname), 'FUNCTION ') AS sql
   FROM pg_proc p JOIN pg_namespace n ON n.oid = pronamespace WHERE pronamespace = $1 ORDER BY proname`,

  `SELECT format('CREATE TABLE %I (%s)', relname, concat_ws(', ', (
     SELECT string_agg(concat_ws(' ', quote_ident(attname),
       CASE WHEN pg_get_serial_sequence(quote_ident(relname), attname) IS NULL THEN format_type(atttypid, atttypmod) ELSE 'serial' END,
       CASE WHEN attnotnull THEN 'NOT NULL' END,
       CASE WHEN pg_get_serial_sequence(quote_ident(relname), attname) IS NULL THEN 'DEFAULT ' || pg_get_expr(adbin, adrelid) END
     ), ', ' ORDER BY attnum)
     FROM pg_attribute LEFT JOIN pg_attrdef ON adrelid = attrelid AND adnum = attnum
     WHERE attrelid = c.oid AND attnum > 0 AND NOT attisdropped
   ), (
     SELECT string_agg(format('CONSTRAINT %I %s', conname, pg_get_constraintdef(k.oid, true)), ', ' ORDER BY conname)
     FROM pg_constraint k WHERE conrelid = c.oid AND contype IN ('p', 'u', 'c', 'x')
   ))) AS sql
   FROM pg_class c WHERE relnamespace = $1 AND relkind = 'r' ORDER BY relname`,

  // The sequence of a table that was renamed keeps its old name.
  `SELECT format('ALTER SEQUENCE %I RENAME TO %I', relname || '_' || attname || '_seq', "made") AS sql
   FROM pg_class c JOIN pg_attribute ON attrelid = c.oid AND attnum > 0 AND NOT attisdropped,
     LATERAL (SELECT s.relname AS "made" FROM pg_class s WHERE s.oid = pg_get_serial_sequence(quote_ident(c.relname), attname)::regclass) AS owned
   WHERE relnamespace = $1 AND relkind = 'r' AND "made" <> relname || '_' || attname || '_seq' ORDER BY relname`,
];

/** Made once the rows are there: triggers have nothing to say of them, and indexes and keys are made in one go. */
const AFTER_ROWS = [
  `SELECT pg_get_indexdef(indexrelid, 0, true) AS sql FROM pg_index JOIN pg_class c ON c.oid = indexrelid
   WHERE relnamespace = $1 AND NOT EXISTS (SELECT 1 FROM pg_constraint WHERE conindid = indexrelid AND contype IN ('p', 'u', 'x'))
   ORDER BY relname`,

  `SELECT format('ALTER TABLE %s %s', conrelid::regclass, string_agg(format('ADD CONSTRAINT %I %s', conname, pg_get_constraintdef(oid, true)), ', ' ORDER BY conname)) AS sql
   FROM pg_constraint WHERE connamespace = $1 AND contype = 'f' GROUP BY conrelid ORDER BY 1`,

  `SELECT pg_get_triggerdef(t.oid, true) AS sql FROM pg_trigger t JOIN pg_class c ON c.oid = tgrelid
   WHERE relnamespace = $1 AND NOT tgisinternal ORDER BY relname, tgname`,
];

/** The statements that make in an empty schema, the one on the search path, all that this one holds, with the few rows that migrations put there. */
export async function schemaScript(client: pg.ClientBase, schema: string): Promise<string[]> {
  await client.query(`SET search_path TO "${schema}"`);
  const statements: string[] = [];
  for (const part of [...BEFORE_ROWS, await rowsOf(client, schema), SEQUENCES, ...AFTER_ROWS]) {
    const { rows } = await client.query<{ sql: string }>(part.replaceAll("$1", `'${schema}'::regnamespace`));
    statements.push(...rows.map(({ sql }) => sql));
  }
  return statements;
}

const SEQUENCES = `SELECT format('SELECT setval(%L, %s)', quote_ident(sequencename), last_value) AS sql
   FROM pg_sequences WHERE schemaname::regnamespace = $1 AND last_value IS NOT NULL ORDER BY sequencename`;

/** A query for what puts a schema's rows in; which migrations were applied is among them. */
async function rowsOf(client: pg.ClientBase, schema: string): Promise<string> {
  const { rows } = await client.query<{ sql: string }>(
    `SELECT string_agg(format('SELECT format(''INSERT INTO %%I SELECT * FROM json_populate_recordset(NULL::%%1$I, %%L)'', %L, json_agg(t)) AS sql FROM %I t HAVING count(*) > 0',
       tablename, tablename), ' UNION ALL ') AS sql FROM pg_tables WHERE schemaname = $1`,
    [schema],
  );
  return rows[0]?.sql ?? "SELECT 1 WHERE false";
}
