import { TextField } from "@/app/_ui/TextField";

/** The key that other items, and the recipe's text, know an item by. It may be changed: it changes wherever it is named. */
export function KeyField({ itemKey }: { itemKey: string }) {
  return (
    <details className="mb-3">
      <summary className="inline-flex min-h-6 cursor-pointer items-center text-[14px] text-soft underline underline-offset-4 pointer-coarse:min-h-12">
        {`Key: ${itemKey}`}
      </summary>
      <TextField
        name="as"
        label="Key"
        hint="What the recipe's text and other items call it. Changed here, it changes wherever it is named."
        initial={itemKey}
        mono
        maxLength={60}
        className="mt-2 max-w-96"
      />
    </details>
  );
}
