import type { Rule } from "@/lib/domain/packages/recipe";
import type { RecipePart } from "@/lib/schemas/recipeItem";

/** What the lists of a recipe are called on its pages. */
export const PART_WORDS: Readonly<
  Record<RecipePart, { title: string; one: string; add: string; none: string }>
> = {
  groups: {
    title: "Groups of options",
    one: "group",
    add: "Add a group",
    none: "None yet. Every option stands in a group, which says how many of it may be chosen.",
  },
  options: {
    title: "Options",
    one: "option",
    add: "Add an option",
    none: "None yet. What a customer can have.",
  },
  operations: {
    title: "Operations",
    one: "operation",
    add: "Add an operation",
    none: "None yet. A piece of work with its minutes and what must be open for it.",
  },
  accesses: {
    title: "Accesses",
    one: "access",
    add: "Add an access",
    none: "None yet. What must be off, open or turned to reach the work.",
  },
  rules: { title: "Rules", one: "rule", add: "Add a rule", none: "None yet: any options go together." },
};

/** The kinds of rule, as one would say them. */
export const RULE_WORDS: Readonly<Record<Rule["kind"], string>> = {
  needs: "needs",
  excludes: "does not go with",
  warns: "is warned about",
  "only when": "only when",
};
