package lookstep.server.frames;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.ClosedWatchServiceException;
import java.nio.file.FileSystem;
import java.nio.file.Path;
import java.nio.file.StandardWatchEventKinds;
import java.nio.file.WatchEvent;
import java.nio.file.WatchKey;
import java.nio.file.WatchService;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * The hints the operating system gives about a few folders. Only hints: they can be lost, network
 * shares give none, and where none can be had this stays silent.
 */
final class FolderWatch implements AutoCloseable {
    private final Optional<FileSystem> fileSystem;
    private final Map<WatchKey, Path> folders = new HashMap<>();
    private WatchService service;

    /**
     * What has been hinted at since the last time.
     *
     * @param touched paths that came or changed, each once
     * @param lookAgain true if hints were lost or a folder went, so that only a listing tells
     */
    record Hints(Set<Path> touched, boolean lookAgain) {}

    private FolderWatch(Optional<FileSystem> fileSystem) {
        this.fileSystem = fileSystem;
    }

    static FolderWatch on(FileSystem fileSystem) {
        return new FolderWatch(Optional.of(fileSystem));
    }

    /** One that gives no hint, as on a network share. */
    static FolderWatch silent() {
        return new FolderWatch(Optional.empty());
    }

    /**
     * Watches these folders too; those that are watched already stay so.
     *
     * @return true if one was not watched before: what came into it until now was not hinted at
     */
    boolean watch(List<Path> wanted) {
        boolean added = false;
        if (fileSystem.isEmpty()) {
            return false;
        }
        for (Path folder : wanted) {
            try {
                if (service == null) {
                    service = fileSystem.get().newWatchService();
                }
                WatchKey key =
                        folder.register(
                                service,
                                StandardWatchEventKinds.ENTRY_CREATE,
                                StandardWatchEventKinds.ENTRY_MODIFY);
                added |= folders.put(key, folder) == null;
            } catch (IOException | UnsupportedOperationException none) {
                // The folder went, or the system has no watch left to give: listings will do.
            }
        }
        return added;
    }

    /** True if at least one folder gives hints. */
    boolean works() {
        return !folders.isEmpty();
    }

    Hints take() {
        Set<Path> touched = new LinkedHashSet<>();
        boolean lookAgain = false;
        WatchKey key;
        while (service != null && (key = poll()) != null) {
            Path folder = folders.get(key);
            for (WatchEvent<?> event : key.pollEvents()) {
                if (event.context() instanceof Path name && folder != null) {
                    touched.add(folder.resolve(name));
                } else {
                    lookAgain = true;
                }
            }
            if (!key.reset()) {
                folders.remove(key);
                lookAgain = true;
            }
        }
        return new Hints(touched, lookAgain);
    }

    private WatchKey poll() {
        try {
            return service.poll();
        } catch (ClosedWatchServiceException closed) {
            return null;
        }
    }

    /** Forgets all folders; {@link #watch} may begin anew. */
    @Override
    public void close() {
        folders.clear();
        WatchService old = service;
        service = null;
        if (old != null) {
            try {
                old.close();
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }
}
