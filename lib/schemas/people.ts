import { z } from "zod";
import { oneLine } from "./oneLine";

export const EmailField = z
  .string()
  .trim()
  .toLowerCase()
  .max(200, "That address is too long.")
  .regex(/^[^\s@]+@[^\s@]+\.[^\s@]+$|^[^\s@]+@localhost$/, "Enter an address like name@example.net.");

const PersonName = oneLine(120).min(1, "Enter a name.");
export const ShopName = oneLine(120).min(2, "Enter the shop's name.");
const Password = z.string().min(10, "At least 10 characters.").max(200, "At most 200 characters.");

/** What is typed at the door: checked for its size before anything is looked up or kept. */
export const SignInSchema = z.object({ email: EmailField, password: z.string().min(1).max(200) });

export const SignUpSchema = z.object({
  name: PersonName,
  email: EmailField,
  password: Password,
  shopName: ShopName,
  country: z.string().length(2, "Choose a country."),
  altitudeM: z
    .string()
    .trim()
    .transform((typed) => (typed === "" ? undefined : Number(typed.replace(",", "."))))
    .refine(
      (n) => n === undefined || (Number.isFinite(n) && n >= -400 && n <= 5000),
      "Metres above sea level, -400 to 5000.",
    ),
});
export type SignUp = z.output<typeof SignUpSchema>;

export const JoinSchema = z.object({
  token: z.string().min(20),
  name: PersonName.optional(),
  password: z.string().optional(),
});

export const InviteSchema = z.object({
  email: EmailField,
  role: z.enum(["owner", "desk", "tuner", "books"]),
});

export const RoleSchema = z.object({
  personId: z.string().min(1),
  role: z.enum(["owner", "desk", "tuner", "books"]),
});

export const RemoveSchema = z.object({ personId: z.string().min(1) });

export const PasswordChangeSchema = z.object({
  currentPassword: z.string().min(1, "Enter the present one."),
  password: Password,
});

export const ResetAskSchema = z.object({ email: EmailField });
export const ResetSchema = z.object({ token: z.string().min(20), password: Password });
