import type { NextRequest } from "next/server";
import NextAuth from "next-auth";
import { guardedPost } from "@/lib/gate/route";
import { authOptions } from "@/lib/gate/session";

interface Context {
  params: Promise<{ nextauth: string[] }>;
}

async function handle(request: NextRequest, context: Context): Promise<Response> {
  return NextAuth(request, { params: await context.params } as never, authOptions());
}

export const GET = handle;
export const POST = guardedPost(handle);
