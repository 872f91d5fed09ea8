import { createServer, type Socket } from "node:net";

export interface Received {
  readonly to: readonly string[];
  /** The mail as it came over the wire, dots unstuffed (RFC 5321, 4.5.2). */
  readonly raw: string;
}

/** What the server answers to a recipient, or to a whole mail, in place of yes; "drop" ends the connection. */
export type Behaviour = (at: "recipient" | "mail", to: string) => string | Promise<string> | undefined;

export interface MailServer {
  readonly url: string;
  readonly received: Received[];
  /** Says yes to all until something else is put here. */
  behave: Behaviour;
  close(): Promise<void>;
}

/** A mail server of our own on loopback: takes every mail and keeps it (RFC 5321, as far as a sender needs it). */
export async function mailServer(): Promise<MailServer> {
  const received: Received[] = [];
  const behaving: { behave: Behaviour } = { behave: () => undefined };
  const open = new Set<Socket>();
  const server = createServer((socket) => {
    open.add(socket);
    socket.on("close", () => open.delete(socket));
    converse(socket, received, (at, to) => behaving.behave(at, to));
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const address = server.address();
  if (address === null || typeof address === "string") throw new Error("No port.");
  return Object.assign(behaving, {
    url: `smtp://127.0.0.1:${address.port}`,
    received,
    close: async () => {
      for (const socket of open) socket.destroy();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  });
}

function converse(socket: Socket, received: Received[], behave: Behaviour): void {
  let waiting = "";
  let talking = Promise.resolve();
  let mail: string[] | null = null;
  let to: string[] = [];
  const say = (line: string) => (line === "drop" ? socket.destroy() : socket.write(`${line}\r\n`));
  const line = async (text: string) => {
    if (mail) {
      if (text !== ".") mail.push(text.replace(/^\./, ""));
      else {
        const whole = { to, raw: mail.join("\r\n") };
        mail = null;
        to = [];
        const otherwise = await behave("mail", whole.to[0] ?? "");
        if (!otherwise) received.push(whole);
        say(otherwise ?? "250 kept");
      }
      return;
    }
    const verb = text.slice(0, 4).toUpperCase();
    if (verb === "RCPT") {
      const address = /<([^>]*)>/.exec(text)?.[1] ?? "";
      const otherwise = await behave("recipient", address);
      if (otherwise) return say(otherwise);
      to.push(address);
    }
    if (verb === "RSET") to = [];
    if (verb === "DATA") {
      mail = [];
      return say("354 go on");
    }
    if (verb === "QUIT") {
      say("221 bye");
      return socket.end();
    }
    say("250 fine");
  };
  socket.setEncoding("latin1");
  socket.on("data", (chunk: string) => {
    waiting += chunk;
    const lines = waiting.split("\r\n");
    waiting = lines.pop() ?? "";
    for (const one of lines) talking = talking.then(() => line(one)).then(() => undefined);
  });
  say("220 ready");
}

export interface MimePart {
  readonly type: string;
  readonly name: string;
  readonly content: Buffer;
}

/** The parts of a mail, those of a multipart inside another one among them (RFC 2046, 5.1). */
export function partsOf(raw: string): MimePart[] {
  const head = raw.slice(0, raw.indexOf("\r\n\r\n")).replace(/\r\n[ \t]+/g, " ");
  const boundary = /^Content-Type: *multipart\/.*boundary="?([^"\r\n;]+)"?/im.exec(head)?.[1];
  if (!boundary) return [partOf(raw)];
  return raw
    .split(`\r\n--${boundary}`)
    .slice(1)
    .filter((part) => !part.startsWith("--"))
    .flatMap((part) => partsOf(part.replace(/^\r\n/, "")));
}

/** Quoted-printable (RFC 2045, 6.7). */
const unquoted = (body: string): string =>
  body
    .replace(/=\r\n/g, "")
    .replace(/=([0-9A-F]{2})/g, (_, code: string) => String.fromCharCode(Number.parseInt(code, 16)));

function partOf(text: string): MimePart {
  const end = text.indexOf("\r\n\r\n");
  const head = text.slice(0, end).replace(/\r\n[ \t]+/g, " ");
  const body = text.slice(end + 4);
  const field = (name: string) => new RegExp(`^${name}: *(.*)$`, "im").exec(head)?.[1] ?? "";
  const encoding = field("Content-Transfer-Encoding").trim().toLowerCase();
  return {
    type: field("Content-Type").split(";")[0] ?? "",
    name: /filename="?([^";]+)"?/.exec(field("Content-Disposition"))?.[1] ?? "",
    content:
      encoding === "base64"
        ? Buffer.from(body, "base64")
        : Buffer.from(encoding === "quoted-printable" ? unquoted(body) : body, "latin1"),
  };
}
