import { LinkButton } from "./_ui/LinkButton";
import { PageHead } from "./_ui/PageHead";

export default function Forbidden() {
  return (
    <div className="mx-auto max-w-[560px] p-6">
      <PageHead of="Throttlewright" title="Your role may not see this" />
      <p className="mb-4">Ask an owner of the shop if you need it for your work.</p>
      <LinkButton href="/" tone="second">
        Back to the shop
      </LinkButton>
    </div>
  );
}
