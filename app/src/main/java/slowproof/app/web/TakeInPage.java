package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Map;
import slowproof.archive.TakenIn;
import slowproof.archive.parcel.ParcelRefusedException;

/** Takes a whole trial from a file into the archive. */
final class TakeInPage {
    /** Largest file in megabytes; larger ones are taken in by the command. */
    static final int LARGEST_MB = 1024;

    private static final String FIELD = "parcel";

    private final Site site;

    TakeInPage(Site site) {
        this.site = site;
    }

    void install(RoutesConfig routes) {
        routes.get("/take-in", context -> send(Visit.of(context), List.of()));
        routes.post("/take-in", this::takeIn);
    }

    private void takeIn(Context context) throws IOException {
        Visit visit = Visit.of(context);
        UploadedFile sent = context.uploadedFile(FIELD);
        if (sent == null || sent.size() == 0) {
            send(visit, List.of(new Problem(FIELD, visit.wording().text("takein.missing"))));
            return;
        }
        Path file = Files.createTempFile("slowproof", ".zip");
        try (InputStream content = sent.content()) {
            Files.copy(content, file, StandardCopyOption.REPLACE_EXISTING);
            TakenIn taken = Parcels.takeIn(file, site.archive());
            site.live().changed(taken.trial(), taken.seq());
            visit.goTo("/trials/" + taken.trial());
        } catch (ParcelRefusedException e) {
            send(visit, List.of(new Problem(FIELD, Parcels.sentence(e, visit.wording()))));
        } finally {
            Files.delete(file);
        }
    }

    private void send(Visit visit, List<Problem> problems) {
        site.send(
                visit,
                "takein.jte",
                visit.wording(),
                "takein",
                visit.wording().text("takein.title"),
                problems,
                Map.of());
    }
}
