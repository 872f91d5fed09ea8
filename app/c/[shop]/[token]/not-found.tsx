import { Plain } from "./Plain";

export default function ClosedLink() {
  return (
    <Plain title="This link does not open">
      It may have run out, been replaced by a newer one, or lost a character on the way. Nothing is wrong with
      your bike or your order: ask the workshop that sent it for a new link.
    </Plain>
  );
}
