"""The language server: what an editor shows of a job while it is typed, by the compiler's own calls and no others."""
