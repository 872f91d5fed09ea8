import { z } from "zod";
import { oneLine } from "./oneLine";

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
});
export type SignUp = z.output<typeof SignUpSchema>;

export const JoinSchema = z.object({
  token: Token,
  name: PersonName.optional(),
  password: z.string().max(200).optional(),
});

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
  currentPassword: z.string().min(1, "Enter the present one.").max(200, "At most 200 characters."),
  password: Password,
});

export const ResetAskSchema = z.object({ email: EmailField });
export const ResetSchema = z.object({ token: Token, password: Password });
