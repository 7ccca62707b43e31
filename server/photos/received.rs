use super::model::{self, Photo, Refusal};
use crate::app::App;
use crate::error::AppError;
use crate::web::forms::{Form, Upload};

/// The form, and the photo that came in `field`, remade. What is wrong with it is noted on the form.
pub async fn received(
    app: &App,
    upload: Upload,
    field: &'static str,
) -> Result<(Form, Option<Received>), AppError> {
    let (mut form, files) = upload.sealed();
    let Some(file) = files.into_iter().find(|f| f.field == field) else { return Ok((form, None)) };
    if file.cut {
        form.refuse(field, t!("photos-too-long"));
        return Ok((form, None));
    }
    if file.bytes.is_empty() {
        form.refuse(field, t!("photos-empty"));
        return Ok((form, None));
    }
    let permit = app.photos.clone().acquire_owned().await.map_err(anyhow::Error::new)?;
    let work = tokio::task::spawn_blocking(move || {
        let _permit = permit;
        model::remade(&file.bytes)
    });
    // a decoder that gives up on a file must not take the form with it
    match work.await.unwrap_or(Err(Refusal::Broken)) {
        Ok(photo) => Ok((form, Some(Received { photo, field }))),
        Err(why) => {
            form.refuse(field, why.words());
            Ok((form, None))
        }
    }
}

/// A photo that came along with a form.
pub struct Received {
    pub photo: Photo,
    field: &'static str,
}

/// Says beside the field that the photo is lost with a form that goes back.
pub fn ask_again(form: &mut Form, photo: Option<&Received>) {
    if let Some(received) = photo {
        form.refuse(received.field, t!("photos-choose-again"));
    }
}
