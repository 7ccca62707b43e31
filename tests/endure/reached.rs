//! PostgreSQL over TLS: who has no certificate of the server's name, signed by somebody who is trusted, is not taken for
//! the server (OWASP ASVS 5.0, 12.3.1). The certificates are made by openssl, the server is PostgreSQL's own.

use crate::support::cluster::{Cluster, on_postgres};
use crate::support::hilum;
use hilum::db::{Db, FromRow};
use std::path::{Path, PathBuf};
use std::process::Command;

const ASKED: &str = "[req]\ndistinguished_name = dn\nprompt = no\nx509_extensions = ext\n[dn]\nCN = Hilum tests\n\
    [ext]\nbasicConstraints = critical, CA:FALSE\nsubjectAltName = DNS:localhost\n";

#[derive(FromRow)]
struct Encrypted {
    ssl: bool,
}

/// A key and a certificate of the name `localhost`, signed by itself.
fn certificate(folder: &Path, name: &str) -> (PathBuf, PathBuf) {
    let at = |ending: &str| folder.join(format!("{name}.{ending}"));
    std::fs::write(at("cnf"), ASKED).unwrap();
    let mut openssl = Command::new("openssl");
    openssl
        .args("req -x509 -newkey ec -pkeyopt ec_paramgen_curve:prime256v1 -nodes -days 2 -config".split(' '));
    openssl.arg(at("cnf")).arg("-keyout").arg(at("key")).arg("-out").arg(at("crt"));
    let made = openssl.output().unwrap();
    assert!(made.status.success(), "{}", String::from_utf8_lossy(&made.stderr));
    (at("key"), at("crt"))
}

/// Lets the server speak TLS with this key and certificate.
async fn certified(cluster: &Cluster, (key, crt): &(PathBuf, PathBuf)) {
    for (from, name) in [(key, "server.key"), (crt, "server.crt")] {
        let to = cluster.data().join(name);
        std::fs::copy(from, &to).unwrap();
        let owner = Command::new("chown").arg("--reference").arg(cluster.data()).arg(&to).status().unwrap();
        let mode = Command::new("chmod").arg("600").arg(&to).status().unwrap();
        assert!(owner.success() && mode.success());
    }
    cluster.run("ALTER SYSTEM SET ssl = on").await;
    cluster.run("SELECT pg_reload_conf()").await;
}

async fn is_encrypted(url: &str) -> Result<bool, sqlx::Error> {
    let db = Db::as_it_is(url).await?;
    let sql = "SELECT ssl FROM pg_stat_ssl WHERE pid = pg_backend_pid()";
    let found: Encrypted = db.read().await?.one(sql, vec![]).await?;
    db.close().await;
    Ok(found.ssl)
}

#[tokio::test]
async fn over_tls_the_server_has_to_prove_its_name() {
    if !on_postgres() {
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    let (own, other) = (certificate(folder.path(), "own"), certificate(folder.path(), "other"));
    let cluster = Cluster::start();
    let club = cluster.database().await;
    club.db.close().await;
    let address = |host: &str, query: &str| format!("{}?{query}", club.url.replace("127.0.0.1", host));
    let trusted = format!("sslmode=verify-full&sslrootcert={}", own.1.display());
    let before = is_encrypted(&address("localhost", &trusted)).await.unwrap_err().to_string();
    assert!(before.contains("does not support TLS"), "{before}");
    certified(&cluster, &own).await;
    assert!(!is_encrypted(&club.url).await.unwrap(), "not on this machine, unless the address asks for it");
    for (host, query) in [("localhost", trusted.as_str()), ("127.0.0.1", "sslmode=require")] {
        assert!(is_encrypted(&address(host, query)).await.unwrap(), "{host} {query}");
    }
    let strange = format!("sslmode=verify-full&sslrootcert={}", other.1.display());
    for (host, query) in
        [("127.0.0.1", trusted.as_str()), ("localhost", "sslmode=verify-full"), ("localhost", &strange)]
    {
        let refused = is_encrypted(&address(host, query)).await.unwrap_err().to_string();
        assert!(refused.contains("certificate") && refused.contains("sslrootcert=FILE"), "{refused}");
    }
    let done =
        |query: &str| hilum(&address("localhost", query), folder.path()).arg("check").output().unwrap();
    assert!(done(&trusted).status.success(), "{:?}", done(&trusted));
    let refused = done(&strange);
    let words = String::from_utf8_lossy(&refused.stderr);
    assert!(!refused.status.success() && words.contains("certificate"), "{words}");
}
