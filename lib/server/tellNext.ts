import { tellLibraries } from "@/lib/configuration/configuration";
import { publicUrl } from "@/lib/gate/origin";
import { actionKey } from "@/lib/gate/secret";

/** What Next.js and the sign-in library read from the environment. The secret has to be known by now. */
export function tellNext(): void {
  tellLibraries({
    NEXT_TELEMETRY_DISABLED: "1",
    NEXT_SERVER_ACTIONS_ENCRYPTION_KEY: actionKey(),
    NEXTAUTH_URL: publicUrl().origin,
  });
}
