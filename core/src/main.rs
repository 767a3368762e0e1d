//! The command `loadworthy`.

fn main() -> std::process::ExitCode {
    loadworthy::cli::main()
}
