export interface Typed {
  readonly email: string;
  readonly password: string;
  readonly code: string;
}

/** Signs in at next-auth's own door, with its token against posts that other sites forge. Answers why it was refused, if it was. */
export async function signIn(typed: Typed): Promise<string | undefined> {
  const asked = await fetch("/api/auth/csrf");
  const { csrfToken } = (await asked.json()) as { csrfToken: string };
  const answer = await fetch("/api/auth/callback/credentials", {
    method: "POST",
    body: new URLSearchParams({ ...typed, csrfToken, callbackUrl: window.location.href, json: "true" }),
  });
  const { url } = (await answer.json()) as { url: string };
  return new URL(url).searchParams.get("error") ?? undefined;
}
