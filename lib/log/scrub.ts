/** Longest path and longest text that a line of the log carries. */
const LONGEST_PATH = 300;
const LONGEST_TEXT = 2_000;

const TOKEN = "[token]";

/** What follows these words in a path is a secret: a customer's link, an invitation, a new-password link. */
const BEFORE_A_SECRET = new Set(["join", "new-password"]);

/** The path of a request as the log may hold it: no query, no token of a link, no mail address, bounded. */
export function loggedPath(url: string): string {
  const [path = ""] = url.split(/[?#]/, 1);
  const parts = path.slice(0, LONGEST_PATH).split("/");
  const linkAt = parts[1] === "c" ? 3 : parts[1] === "api" && parts[2] === "c" ? 5 : Number.POSITIVE_INFINITY;
  const own = parts.map((part, at) =>
    part && (at === linkAt || BEFORE_A_SECRET.has(parts[at - 1] ?? "")) ? TOKEN : part,
  );
  return scrubbed(own.join("/"));
}

// Bounded repetition keeps these linear on a long line.
const MAIL =
  /[A-Za-z0-9._%+'-]{1,64}(?:@|%40)[A-Za-z0-9-]{1,63}(?:\.[A-Za-z0-9-]{1,63}){0,4}\.[A-Za-z]{2,24}/g;
/** Our tokens are 27 letters of base64url; a slug of that length has no capital. */
const OWN_TOKEN = /(?<![\w-])(?=[a-z0-9_-]{0,26}[A-Z])[\w-]{27}(?![\w-])/g;
/** Sessions and other long secrets: capitals and digits in one run. */
const LONG_SECRET = /(?<![\w-])(?=[\w-]{0,60}[A-Z])(?=[\w-]{0,60}\d)[\w-]{40,}(?![\w-])/g;
/** How requests to an S3 store are signed, in their header or their address. */
const SIGNED = /((?:Credential|Signature|Security-Token)=)[^\s,&"\\]{1,2000}/gi;
const PASSWORD_IN_URL = /(:\/\/[^\s:/@"\\]{0,80}:)[^\s/@"\\]{1,200}@/g;

/** Text without mail addresses, tokens and passwords in addresses of servers. Stays JSON where it was JSON. */
export function scrubbed(text: string): string {
  return text
    .replace(SIGNED, "$1[signed]")
    .replace(PASSWORD_IN_URL, "$1[password]@")
    .replace(MAIL, "[mail]")
    .replace(OWN_TOKEN, TOKEN)
    .replace(LONG_SECRET, TOKEN);
}

export interface LoggedError {
  readonly type: string;
  readonly message: string;
  readonly code?: string;
  readonly stack?: string;
  readonly cause?: LoggedError;
}

/** An error as the log holds it. Prisma prints the call with its values before it says what failed: only that is kept. */
export function loggedError(cause: unknown, depth = 0): LoggedError {
  if (!(cause instanceof Error)) return { type: typeof cause, message: cut(String(cause)) };
  const { code } = cause as { code?: unknown };
  const frames = (cause.stack ?? "").split("\n").filter((line) => /^\s+at /.test(line));
  return {
    type: cause.name,
    message: cut(said(cause.message)),
    ...(code === undefined ? {} : { code: String(code).slice(0, 60) }),
    ...(frames.length ? { stack: cut(frames.slice(0, 12).join("\n")) } : {}),
    ...(cause.cause !== undefined && depth < 3 ? { cause: loggedError(cause.cause, depth + 1) } : {}),
  };
}

function said(message: string): string {
  if (!/^\s*Invalid `/.test(message)) return message;
  return (
    message
      .trim()
      .split(/\n\s*\n|\n/)
      .at(-1) ?? ""
  );
}

const cut = (text: string) => scrubbed(text.length > LONGEST_TEXT ? `${text.slice(0, LONGEST_TEXT)}…` : text);
