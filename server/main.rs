use clap::{Parser, Subcommand};
use hilum::app::App;
use hilum::config::Config;
use hilum::db::Db;
use hilum::{accounts, db, stock};

/// Carries numbered seed lots from packet to labelled tray cell, and pools the club's counts.
#[derive(Parser)]
#[command(version)]
struct Cli {
    #[command(flatten)]
    config: Config,
    #[command(subcommand)]
    command: Option<Command>,
}

#[derive(Subcommand)]
enum Command {
    /// Serve the club's pages (the default).
    Serve,
}

#[tokio::main]
async fn main() -> anyhow::Result<()> {
    let cli = Cli::parse();
    let filter =
        tracing_subscriber::EnvFilter::try_from_default_env().unwrap_or_else(|_| "warn,hilum=info".into());
    tracing_subscriber::fmt().with_env_filter(filter).with_writer(std::io::stderr).init();
    match cli.command.unwrap_or(Command::Serve) {
        Command::Serve => serve(cli.config).await,
    }
}

async fn serve(config: Config) -> anyhow::Result<()> {
    std::fs::create_dir_all(&config.data)?;
    let db = Db::open(&config.database()).await?;
    let app = App::new(db, config.clone(), config.clock());
    let mut conn = app.db.write().await?;
    stock::ensure_kinds(&mut conn, app.now()).await?;
    conn.commit().await?;
    if let Some(link) = accounts::set_up_link(&app).await? {
        println!("No account yet. Set up your club here, once, within 7 days:\n\n    {link}\n");
    }
    run(app).await
}

async fn run(app: App) -> anyhow::Result<()> {
    let listener = tokio::net::TcpListener::bind(app.config.listen).await?;
    println!("Hilum is at http://{}", listener.local_addr()?);
    let db: db::Db = app.db.clone();
    axum::serve(listener, app.router()).with_graceful_shutdown(stopped()).await?;
    db.close().await;
    Ok(())
}

async fn stopped() {
    use tokio::signal::unix::{SignalKind, signal};
    let terminate = async {
        match signal(SignalKind::terminate()) {
            Ok(mut s) => s.recv().await,
            Err(_) => std::future::pending().await,
        }
    };
    tokio::select! {
        _ = terminate => {}
        _ = tokio::signal::ctrl_c() => {}
    }
}
