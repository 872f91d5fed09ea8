import { z } from "zod";
import { oneLine } from "./oneLine";
import { PLACE_FIELDS } from "./place";

export const EmailField = z
  .string()
  .trim()
  .toLowerCase()
  // Nothing longer is looked at any further; and each dot parts two names, so that there is one way only to read an address.
  .max(200, { error: "That address is too long.", abort: true })
  .regex(/^[^\s@]+@(?:[^\s@.]+(?:\.[^\s@.]+)+|localhost)$/, "Enter an address like name@example.net.");

const PersonName = oneLine(120).min(1, "Enter a name.");
export const ShopName = oneLine(120).min(2, "Enter the shop's name.");
const Password = z.string().min(10, "At least 10 characters.").max(200, "At most 200 characters.");

/** What is typed at the door: checked for its size before anything is looked up or kept. */
export const SignInSchema = z.object({ email: EmailField, password: z.string().min(1).max(200) });
const Token = z.string().min(20).max(200);
const PersonId = z.string().min(1).max(60);

const CodeField = z.string().trim().min(1, "Enter the code.").max(60, "That is no code.");

export const SignUpSchema = z.object({
  name: PersonName,
  email: EmailField,
  password: Password,
  shopName: ShopName,
  country: z.string().length(2, "Choose a country."),
  altitudeM: z
    .string()
    .max(20, "Metres above sea level, -400 to 5000.")
    .trim()
    .transform((typed) => (typed === "" ? undefined : Number(typed.replace(",", "."))))
    .refine(
      (n) => n === undefined || (Number.isFinite(n) && n >= -400 && n <= 5000),
      "Metres above sea level, -400 to 5000.",
    ),
  ...PLACE_FIELDS,
});

export const JoinSchema = z.object({
  token: Token,
  name: PersonName.optional(),
  password: z.string().max(200).optional(),
  code: z.string().max(60).optional(),
});

/** The second step of signing up: the link's token, and the password once more. */
export const FinishSignUpSchema = z.object({
  token: Token,
  currentPassword: z.string().min(1, "Enter the password you chose.").max(200),
});

const OwnPassword = z.string().min(1, "Enter the present one.").max(200, "At most 200 characters.");

/** Before a second factor is set up, exchanged or turned off; the code is wanted where there is one. */
export const FactorGuardSchema = z.object({
  currentPassword: OwnPassword,
  code: z.string().trim().max(60).default(""),
});
export const FactorCodeSchema = z.object({ code: CodeField });
export const OwnersFactorSchema = z.object({ ownersNeedFactor: z.literal("on").optional() });
export const SessionMarkSchema = z.object({ mark: z.string().regex(/^[0-9a-f]{64}$/) });

export const InviteSchema = z.object({
  email: EmailField,
  role: z.enum(["owner", "desk", "tuner", "books"]),
});

export const RoleSchema = z.object({
  personId: PersonId,
  role: z.enum(["owner", "desk", "tuner", "books"]),
});

export const RemoveSchema = z.object({ personId: PersonId });

export const PasswordChangeSchema = z.object({
  currentPassword: OwnPassword,
  password: Password,
});

export const ResetAskSchema = z.object({ email: EmailField });
export const ResetSchema = z.object({ token: Token, password: Password });
