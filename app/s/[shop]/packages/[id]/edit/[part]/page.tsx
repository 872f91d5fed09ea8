import { notFound } from "next/navigation";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { type StepKind, usualMinutes } from "@/lib/data/figures/packageMinutes";
import { linesToPick } from "@/lib/data/library/read";
import { getPackage } from "@/lib/data/packages/get";
import { keyOf, printOf } from "@/lib/data/packages/items";
import { gradesToName } from "@/lib/data/packages/supplies";
import type { Rule } from "@/lib/domain/packages/recipe";
import { pathId } from "@/lib/gate/ids";
import { type OpenShop, open } from "@/lib/gate/open";
import { RECIPE_PARTS, type RecipePart } from "@/lib/schemas/recipeItem";
import { BeginDraft } from "../../BeginDraft";
import { usualText } from "../../usualText";
import { PART_WORDS, RULE_WORDS } from "../partWords";
import { AccessForm } from "./AccessForm";
import { GroupForm } from "./GroupForm";
import { ItemProblems } from "./ItemProblems";
import type { LibraryLines } from "./LinePick";
import { OperationForm } from "./OperationForm";
import { OptionForm } from "./OptionForm";
import { RuleForm } from "./RuleForm";

interface Props {
  params: Promise<{ shop: string; id: string; part: string }>;
  searchParams: Promise<Record<string, string | undefined>>;
}

/** One item of a draft in a form; without a key, a new one. */
export default async function EditItem({ params, searchParams }: Props) {
  const [{ shop: slug, id, part: asked }, query] = await Promise.all([params, searchParams]);
  const shop = await open("package.write", slug);
  const part = RECIPE_PARTS.find((one) => one === asked);
  const found = part && (await getPackage(shop, pathId(id)));
  if (!found || !part) notFound();
  const back = <LinkButton href={`/s/${slug}/packages/${id}/edit`}>Back to the draft</LinkButton>;
  const { shown } = found;
  if (shown?.state !== "draft")
    return (
      <>
        <PageHead of={shop.name} title={found.name} actions={back} />
        <p className="mb-4">There is no draft to change: what is published stays as it is.</p>
        <BeginDraft slug={slug} packageId={found.id} />
      </>
    );
  const { recipe } = shown;
  const item = query.key
    ? (recipe[part] as readonly object[]).find((one) => keyOf(one) === query.key)
    : undefined;
  if (query.key && !item) notFound();
  const grades = part === "operations" ? await gradesToName(shop) : [];
  const library = await linesFor(shop, part);
  const timed = part === "operations" || part === "accesses";
  const took = query.key && timed ? await usualMinutes(shop, found.id, recipe) : [];
  const usual = (kind: StepKind) =>
    usualText(took.find((one) => one.kind === kind && one.key === query.key)?.usual);
  const hidden = { packageId: id, key: query.key ?? "", seen: item ? printOf(item) : "" };
  const at = item ? (recipe[part] as readonly object[]).indexOf(item) : -1;
  const given = { slug, hidden, recipe, writing: { recipe, part, at } };
  // A form for the next new item starts blank; one that is being typed in stays, whatever else is saved.
  const fresh = `${query.key ?? ""} ${query.after ?? ""}`;
  const { one } = PART_WORDS[part];
  const name = item && "name" in item ? String(item.name) : "";
  return (
    <>
      <PageHead
        of={shop.name}
        title={item ? name || `The ${one}` : `New ${one}`}
        sub={`${found.name}, draft`}
        actions={back}
      />
      <ItemProblems problems={shown.problems} part={part} item={item} />
      {part === "groups" && <GroupForm key={fresh} {...given} item={recipe.groups.find((g) => g === item)} />}
      {part === "options" && (
        <OptionForm
          key={fresh}
          {...given}
          item={recipe.options.find((o) => o === item)}
          locale={shop.settings.locale}
          currency={shop.settings.currency}
        />
      )}
      {part === "operations" && (
        <OperationForm
          key={fresh}
          {...given}
          item={recipe.operations.find((o) => o === item)}
          grades={grades}
          library={library}
          usual={usual("operation")}
        />
      )}
      {part === "accesses" && (
        <AccessForm
          key={fresh}
          {...given}
          item={recipe.accesses.find((a) => a === item)}
          library={library}
          usual={{ open: usual("open"), close: usual("close") }}
        />
      )}
      {part === "rules" && (
        <RuleForm
          key={fresh}
          {...given}
          item={recipe.rules.find((r) => r === item)}
          kind={kindOf(query.kind)}
        />
      )}
    </>
  );
}

/** The library's words that lines of such an item may be. */
async function linesFor(shop: OpenShop, part: RecipePart): Promise<LibraryLines> {
  if (part !== "accesses" && part !== "operations") return { cautions: [], checks: [] };
  const [cautions, checks] = await Promise.all([linesToPick(shop, "caution"), linesToPick(shop, "check")]);
  return { cautions, checks };
}

function kindOf(asked: string | undefined): Rule["kind"] {
  return (Object.keys(RULE_WORDS) as Rule["kind"][]).find((kind) => kind === asked) ?? "needs";
}
