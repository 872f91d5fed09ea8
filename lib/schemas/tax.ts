import { z } from "zod";
import { ticked } from "./recipeFields";

export const RegisteredSchema = z.object({ inCompanyRegister: ticked });
