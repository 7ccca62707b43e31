mod commands;

use anyhow::Context;
use clap::{Parser, Subcommand};
use commands::manager::Manager;
use hilum::accounts::{self, passkeys};
use hilum::app::App;
use hilum::backups::{schedule, upgrade};
use hilum::config::Config;
use hilum::config::sources::{self, Asked, Wrong};
use hilum::error::AppError;
use hilum::host::metrics;
use hilum::rates;
use hilum::upkeep::scale::Size;
use hilum::upkeep::{demo, folder};
use hilum::web::log;
use std::ffi::OsString;
use std::net::SocketAddr;
use std::process::ExitCode;
use tokio::net::TcpListener;
use tracing_subscriber::util::SubscriberInitExt;

/// Carries numbered seed lots from packet to labelled tray cell, and pools the club's counts.
#[derive(Parser)]
#[command(version)]
struct Cli {
    #[command(flatten)]
    config: Config,
    /// Where a service manager waits for the word that the program is ready.
    #[arg(long, env = "NOTIFY_SOCKET", hide = true)]
    notify_socket: Option<OsString>,
    #[command(subcommand)]
    command: Option<Command>,
}

#[derive(Subcommand)]
enum Command {
    /// Serve the club's pages (the default).
    Serve,
    /// Try an invented club; its data is gone when you stop it.
    Demo {
        /// A large club instead, drawn by rule: so many members, trials (each with about 20 counts) and seasons.
        /// 500,50000,5 has 1 million counts and takes a minute or so to make.
        #[arg(long, value_name = "MEMBERS,TRIALS,SEASONS")]
        size: Option<Size>,
    },
    /// Verify the whole database and print each breach of what must always hold.
    Check,
    /// Look for the usual mistakes of a host, each with its mend, and whether members' phones can keep counts here.
    HostCheck,
    /// Ask the running program whether members can work.
    Ready,
    Settings(commands::settings::Settings),
    Backup(commands::backup::Backup),
    Restore(commands::restore::Restore),
    SignOut(commands::sign_out::SignOut),
    ResetLink(commands::reset_link::ResetLink),
    Import(commands::import::Import),
    Export(commands::export::Export),
    Reckon(commands::reckon::Reckon),
    Analyse(commands::analyse::Analyse),
}

#[tokio::main]
async fn main() -> ExitCode {
    // in words, without a trace of the program's own calls
    let asked = match sources::asked::<Cli>() {
        Ok(asked) => asked,
        Err(Wrong::Usage(error)) => error.exit(),
        Err(wrong) => {
            eprintln!("{wrong}");
            return ExitCode::from(commands::MALFORMED);
        }
    };
    done(asked).await.unwrap_or_else(|error| {
        eprintln!("{error:#}");
        ExitCode::FAILURE
    })
}

async fn done(Asked { asked: cli, in_force }: Asked<Cli>) -> anyhow::Result<ExitCode> {
    log::lines(cli.config.log_level.filter(), cli.config.log_format, std::io::stderr).init();
    let command = cli.command.unwrap_or(Command::Serve);
    if let Command::Settings(settings) = &command {
        return Ok(settings.run(&in_force));
    }
    let config = cli.config.with_secrets()?;
    match command {
        Command::Serve => serve(config, &Manager(cli.notify_socket)).await.map(|()| ExitCode::SUCCESS),
        Command::Demo { size } => show(config, size).await.map(|()| ExitCode::SUCCESS),
        Command::Check => commands::check::run(config).await,
        Command::HostCheck => Ok(commands::host_check::run(&config).await),
        Command::Settings(settings) => Ok(settings.run(&in_force)),
        Command::Ready => Ok(commands::ready::run(&config).await),
        Command::Backup(backup) => backup.run(config).await,
        Command::Restore(restore) => restore.run(config).await,
        Command::SignOut(sign_out) => sign_out.run(config).await,
        Command::ResetLink(reset_link) => reset_link.run(config).await,
        Command::Import(import) => import.run(config).await,
        Command::Export(export) => export.run(config).await,
        Command::Reckon(reckon) => Ok(reckon.run()),
        Command::Analyse(analyse) => Ok(analyse.run()),
    }
}

async fn serve(config: Config, manager: &Manager) -> anyhow::Result<()> {
    passkeys::must_be_possible(&config)?;
    folder::closed(&config.data)?;
    if let Some(backups) = &config.backup_folder {
        folder::closed(backups)?;
    }
    let db = upgrade::open(&config, config.clock().now()).await?;
    let app = App::new(db, config.clone(), config.clock());
    match furnished(&app).await {
        // found at once, or meanwhile by the look over a large file
        _ if app.db.damaged() => {
            println!(
                "The database is damaged. Pages can be read, nothing is saved. Restore the last backup."
            );
        }
        link => {
            if let Some(link) = link? {
                println!("No account yet. Set up your club here, once, within 7 days:\n\n    {link}\n");
            }
        }
    }
    run(app, manager).await
}

/// Puts in what each club starts with; the set-up link where nobody has an account.
async fn furnished(app: &App) -> Result<Option<String>, AppError> {
    app.furnish().await?;
    accounts::set_up_link(app).await
}

async fn show(config: Config, size: Option<Size>) -> anyhow::Result<()> {
    anyhow::ensure!(
        config.data == Config::default().data && config.database_url.is_none(),
        "The invented club lives in a folder of its own, which goes when you stop it: leave --data and --database-url \
         (HILUM_DATA, HILUM_DATABASE_URL) out."
    );
    anyhow::ensure!(
        !config.organisers_by_passkey,
        "Members of the invented club come by their password: leave --organisers-by-passkey \
         (HILUM_ORGANISERS_BY_PASSKEY) out."
    );
    let (app, _folder) = match size {
        None => demo::app(config).await?,
        Some(size) => demo::large(config, size).await?,
    };
    println!("{}", size.map_or_else(|| demo::greeting(&app), |size| demo::greeting_of(&app, size)));
    run(app, &Manager(None)).await
}

async fn run(app: App, manager: &Manager) -> anyhow::Result<()> {
    let at = app.config.listen;
    let listener = TcpListener::bind(at).await.with_context(|| format!("nobody can be served at {at}"))?;
    println!("Hilum is at http://{}", listener.local_addr()?);
    let db = app.db.clone();
    let watched = watched(&app).await?;
    let refits = tokio::spawn(rates::standing::keep_current(app.clone()));
    let backups = tokio::spawn(schedule::keep_going(app.clone()));
    // throttles and the log tell senders apart by their address
    let service = app.router().into_make_service_with_connect_info::<SocketAddr>();
    manager.ready();
    axum::serve(listener, service).with_graceful_shutdown(stopped()).await?;
    if let Some(task) = watched {
        task.abort();
    }
    refits.abort();
    backups.abort();
    db.close().await;
    Ok(())
}

/// Metrics on an address of their own, where the settings give one.
async fn watched(app: &App) -> anyhow::Result<Option<tokio::task::JoinHandle<()>>> {
    let Some(at) = app.config.metrics_listen else { return Ok(None) };
    let listener = TcpListener::bind(at).await;
    let listener = listener.with_context(|| format!("metrics cannot be served at {at}"))?;
    println!("Metrics are at http://{}{}", listener.local_addr()?, metrics::PATH);
    Ok(Some(tokio::spawn(metrics::serve(app.clone(), listener))))
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
