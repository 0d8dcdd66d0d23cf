package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.ContentTooLargeResponse;
import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import slowproof.archive.EventKind;
import slowproof.archive.NewEvent;
import slowproof.archive.Sending;
import slowproof.archive.sheet.Photo;
import slowproof.archive.sheet.Sheet;

/** Photos of a set-up: taken in by content, handed out only to the trial they belong to. */
final class Photos {
    /** Largest photo in megabytes. */
    static final int LARGEST_MB = 15;

    private static final int MOST_PHOTOS = 60;
    private static final int LONGEST_NAME = 120;

    private final Site site;

    Photos(Site site) {
        this.site = site;
    }

    void install(RoutesConfig routes) {
        routes.post("/trials/{id}/photos", this::add);
        routes.get("/trials/{id}/photos/{sha256}", this::send);
    }

    private void add(Context context) throws IOException {
        Visit visit = Visit.of(context);
        String id = context.pathParam("id");
        Sheet sheet = site.archive().sheet(id);
        List<NewEvent> events = new ArrayList<>();
        for (UploadedFile file : context.uploadedFiles("photo")) {
            if (sheet.photos().size() + events.size() >= MOST_PHOTOS) {
                break;
            }
            if (file.size() > (long) LARGEST_MB << 20) {
                throw new ContentTooLargeResponse();
            }
            byte[] content;
            try (InputStream stream = file.content()) {
                content = stream.readAllBytes();
            }
            String type = type(content);
            if (type.isEmpty()) {
                new TrialPage(site)
                        .send(
                                visit,
                                Map.of(),
                                List.of(new Problem("photo", visit.wording().text("photos.refused"))),
                                Meanwhile.NOTHING);
                return;
            }
            String name = file.filename();
            events.add(NewEvent.of(
                    EventKind.PHOTO,
                    "sha256",
                    site.archive().keepFile(content),
                    "name",
                    name.length() > LONGEST_NAME ? name.substring(0, LONGEST_NAME) : name,
                    "type",
                    type,
                    "bytes",
                    String.valueOf(content.length)));
        }
        if (!events.isEmpty()) {
            // a photo fits whatever was recorded meanwhile
            site.record(visit, id, Sending.ANYTHING, events);
        }
        visit.goTo("/trials/" + id + "#photos");
    }

    /** Returns the media type told by the first bytes of a picture, empty when it is none that browsers show safely. */
    static String type(byte[] content) {
        if (starts(content, 0xff, 0xd8, 0xff)) {
            return "image/jpeg";
        }
        if (starts(content, 0x89, 'P', 'N', 'G', 0x0d, 0x0a, 0x1a, 0x0a)) {
            return "image/png";
        }
        boolean riff = starts(content, 'R', 'I', 'F', 'F') && content.length > 12;
        return riff && content[8] == 'W' && content[9] == 'E' && content[10] == 'B' && content[11] == 'P'
                ? "image/webp"
                : "";
    }

    private static boolean starts(byte[] content, int... wanted) {
        if (content.length < wanted.length) {
            return false;
        }
        for (int i = 0; i < wanted.length; i++) {
            if ((content[i] & 0xff) != wanted[i]) {
                return false;
            }
        }
        return true;
    }

    private void send(Context context) throws IOException {
        String sha256 = context.pathParam("sha256");
        Photo photo = site.archive().sheet(context.pathParam("id")).photos().stream()
                .filter(one -> one.sha256().equals(sha256))
                .findFirst()
                .orElseThrow(NotFoundResponse::new);
        Optional<Path> file = site.archive().file(photo.sha256());
        byte[] content = Files.readAllBytes(file.orElseThrow(NotFoundResponse::new));
        // by what it is: what a record from elsewhere says of it is not to be trusted
        String type = type(content);
        context.contentType(type.isEmpty() ? "application/octet-stream" : type)
                .header("Content-Security-Policy", "default-src 'none'; sandbox")
                .header("Cache-Control", "private, max-age=31536000, immutable")
                .result(content);
    }
}
