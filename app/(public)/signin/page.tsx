import type { Metadata } from "next";
import { redirect } from "next/navigation";
import { Link } from "@/app/_ui/Link";
import { CardsAway } from "@/app/_ui/offline/CardsAway";
import { PageHead } from "@/app/_ui/PageHead";
import { SignInForm } from "@/app/_ui/SignInForm";
import { ownPath } from "@/lib/gate/origin";
import { currentSession } from "@/lib/gate/session";

export const metadata: Metadata = { title: "Sign in" };

export default async function SignIn({
  searchParams,
}: {
  searchParams: Promise<{ to?: string; ok?: string }>;
}) {
  const { to } = await searchParams;
  const next = ownPath(to, "/");
  if (await currentSession()) redirect(next);
  return (
    <div className="mx-auto max-w-[420px]">
      <CardsAway />
      <PageHead title="Sign in" />
      <SignInForm to={next} />
      <p className="mt-6 flex flex-wrap gap-x-6 gap-y-2">
        <Link href="/signup">Open a shop</Link>
        <Link href="/reset">Forgotten password</Link>
      </p>
    </div>
  );
}
