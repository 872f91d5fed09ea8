import { isIP, isIPv6 } from "node:net";

/** Many people at one address: a proxy stands before this server, and nobody told it so. */
export const SHARED = "shared";

/**
 * The network a request comes from, as limits count it: an IPv4 address, or the first half of an IPv6 one (one household
 * or machine has all of that, RFC 6177). `forwarded` is X-Forwarded-For, whose last entry counts where the proxy is trusted.
 */
export function clientAddress(
  remote: string | undefined,
  forwarded: string | undefined,
  trusted: boolean,
): string {
  const direct = remote === undefined || isIP(remote) === 0 ? "unknown" : network(remote);
  if (forwarded === undefined) return direct;
  if (!trusted) return isNear(direct) ? SHARED : direct;
  const last = forwarded.split(",").at(-1)?.trim() ?? "";
  return isIP(last) === 0 ? direct : network(last);
}

function network(address: string): string {
  const mapped = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(address);
  if (mapped) return mapped[1] as string;
  if (!isIPv6(address)) return address;
  const [head = "", tail = ""] = address.split("%")[0]?.split("::") ?? [];
  const groups = head.split(":").filter(Boolean);
  const rest = tail.split(":").filter(Boolean);
  while (address.includes("::") && groups.length + rest.length < 8) groups.push("0");
  const first = [...groups, ...rest].slice(0, 4).map((group) => Number.parseInt(group, 16).toString(16));
  return `${first.join(":")}::/64`;
}

/** This machine or a private network (RFC 1918, RFC 4193, RFC 4291): where a proxy of ours would stand. */
function isNear(address: string): boolean {
  return /^(127\.|10\.|192\.168\.|172\.(1[6-9]|2\d|3[01])\.|0:0:0:0::|f[cd][0-9a-f]{2}:|fe[89ab][0-9a-f]:)/.test(
    address,
  );
}
