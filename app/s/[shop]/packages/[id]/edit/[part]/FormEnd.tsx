import { KeepMine } from "@/app/_ui/KeepMine";
import { SubmitButton } from "@/app/_ui/SubmitButton";

/** The foot of every item's form: saving over someone else's change where there was one, and the act. */
export function FormEnd({ children }: { children: string }) {
  return (
    <div className="mt-2 max-w-[46rem] border-rule border-t pt-4">
      <KeepMine />
      <SubmitButton size="act" className="max-sm:w-full">
        {children}
      </SubmitButton>
    </div>
  );
}
