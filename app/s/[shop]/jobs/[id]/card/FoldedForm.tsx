import type { ComponentProps } from "react";
import { Form } from "@/app/_ui/Form";

type FormProps = ComponentProps<typeof Form>;

interface FoldedFormProps extends Pick<FormProps, "action" | "shop" | "hidden" | "keep" | "children"> {
  title: string;
}

/** A form of the card that opens under its title; what is half typed in it is kept. */
export function FoldedForm({ title, children, ...form }: FoldedFormProps) {
  return (
    <details>
      <summary className="in-line text-brass">{title}</summary>
      <Form {...form} label={title} className="mt-2">
        {children}
      </Form>
    </details>
  );
}
