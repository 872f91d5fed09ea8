"use client";
import "./globals.css";
import { buttonLook } from "./_ui/buttonLook";
import { FACES } from "./_ui/fonts";
import { Trouble } from "./_ui/Trouble";

/** Stands in for everything, even the frame; so it carries its own html. */
export default function GlobalError({ error }: { error: Error & { digest?: string } }) {
  return (
    <html lang="en" data-theme="auto" className={FACES}>
      <body>
        <title>Throttlewright is not working</title>
        <main>
          <Trouble
            title="Throttlewright is not working just now"
            id={error.digest}
            acts={
              // The router may be what broke: a plain link asks the server anew.
              <a href="/" className={buttonLook("main")}>
                Load it again
              </a>
            }
          >
            <p>The page could not be put together at all.</p>
            <p>
              <strong>What is safe:</strong> everything that was saved. Nothing is half saved.
            </p>
            <p>
              <strong>What to do:</strong> load it again. If that does not help, tell whoever runs the server
              the number below.
            </p>
          </Trouble>
        </main>
      </body>
    </html>
  );
}
