using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using WireUp.Layouts;
using WireUp.Web.Folders;
using WireUp.Web.Hosting;

namespace WireUp.Files;

/// <summary>
/// One folder of layouts on disk. Only files that lie in it by name are read and written, links are not followed; a file is written
/// beside the old one and moved over it, and only where the old one still is what was seen.
/// </summary>
internal sealed class LayoutFolder : ILayoutFolder, IDisposable
{
    private const string ProgressEnding = ".progress.json";
    private const string JournalEnding = ".journal";

    private readonly DirectoryInfo _folder;
    private readonly Lock _gate = new();
    private readonly FileSystemWatcher? _watcher;

    /// <summary>Opens a folder.</summary>
    /// <exception cref="InputRefused">There is none of that name.</exception>
    public LayoutFolder(DirectoryInfo folder)
    {
        if (!folder.Exists) throw new InputRefused($"there is no folder '{folder}'");
        _folder = new(Path.GetFullPath(folder.FullName));
        _watcher = Watch(_folder);
        if (_watcher is null) return;
        _watcher.Changed += (_, change) => Tell(change.Name);
        _watcher.Created += (_, change) => Tell(change.Name);
        _watcher.Deleted += (_, change) => Tell(change.Name);
        _watcher.Renamed += (_, change) => Tell(change.Name);
        _watcher.EnableRaisingEvents = true;
    }

    /// <inheritdoc/>
    public event Action<LayoutName>? Changed;

    /// <inheritdoc/>
    public string Title => _folder.Name;

    /// <summary>Whether edits by other programs are noticed at once; else only when a file is opened or saved.</summary>
    public bool IsWatched => _watcher is not null;

    /// <inheritdoc/>
    public ImmutableArray<LayoutName> List() =>
    [
        .. _folder.EnumerateFiles("*" + LayoutFile.Ending).Where(file => file.LinkTarget is null)
            .Select(file => LayoutName.OfFile(file.Name)).OfType<LayoutName>().Order(),
    ];

    /// <inheritdoc/>
    public StoredFile Read(LayoutName name, FileRole role)
    {
        try
        {
            FileInfo file = FileOf(name, role);
            if (!file.Exists) return new StoredFile.Missing();
            if (file.LinkTarget is not null) return new StoredFile.Unreadable($"'{file.Name}' is a link; links are not followed.");
            if (file.Length > LayoutFiles.LargestBytes) return new StoredFile.Unreadable($"'{file.Name}' has {file.Length} bytes; at most {LayoutFiles.LargestBytes} are read.");
            byte[] bytes = File.ReadAllBytes(file.FullName);
            return new StoredFile.Found(new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes), VersionOf(bytes));
        }
        catch (DecoderFallbackException)
        {
            return new StoredFile.Unreadable($"'{name}' is not UTF-8 text.");
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return new StoredFile.Unreadable($"'{name}' cannot be read: {failure.Message}");
        }
    }

    /// <inheritdoc/>
    public SaveOutcome Save(LayoutName name, FileRole role, string text, string? seen)
    {
        byte[] bytes = new UTF8Encoding(false).GetBytes(text);
        if (bytes.Length > LayoutFiles.LargestBytes) return new SaveOutcome.Refused($"The text has {bytes.Length} bytes; a layout file has at most {LayoutFiles.LargestBytes}.");
        lock (_gate)
        {
            StoredFile now = Read(name, role);
            if (now is StoredFile.Unreadable unreadable) return new SaveOutcome.Refused(unreadable.Reason);
            if ((now as StoredFile.Found)?.Version != seen) return new SaveOutcome.Conflict();
            try
            {
                LayoutFiles.Write(FileOf(name, role), bytes);
            }
            catch (InputRefused refused)
            {
                return new SaveOutcome.Refused(refused.Message);
            }
        }

        Changed?.Invoke(name);
        return new SaveOutcome.Saved(VersionOf(bytes));
    }

    /// <inheritdoc/>
    public string? Append(LayoutName name, FileRole role, string line, bool isForGood) => Tried(() =>
    {
        FileInfo file = FileOf(name, role);
        if (file.LinkTarget is not null) throw new IOException("it is a link; links are not followed");
        lock (_gate)
        {
            using FileStream stream = new(file.FullName, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.Read);
            bool isTorn = stream.Length > 0 && ByteAt(stream, stream.Length - 1) != '\n';
            stream.Seek(0, SeekOrigin.End);
            stream.Write(Encoding.UTF8.GetBytes((isTorn ? "\n" : "") + line + "\n"));
            stream.Flush(isForGood);
        }
    });

    /// <inheritdoc/>
    public string? PutJournalAside(LayoutName name) => Tried(() =>
    {
        FileInfo journal = FileOf(name, FileRole.Journal);
        if (journal.Exists) journal.MoveTo(FileOf(name, FileRole.JournalBefore).FullName, overwrite: true);
    });

    /// <inheritdoc/>
    public byte[]? ReadPicture(string fileName)
    {
        try
        {
            FileInfo? file = PlanPicture.IsFileName(fileName) ? FileOf(fileName) : null;
            return file is { Exists: true, LinkTarget: null, Length: <= PageLimits.PictureBytes } ? File.ReadAllBytes(file.FullName) : null;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <inheritdoc/>
    public string? SavePicture(string fileName, byte[] bytes)
    {
        if (!PlanPicture.IsFileName(fileName) || bytes.Length > PageLimits.PictureBytes) return $"'{fileName}' cannot be the name of a picture, or it is too large.";
        return Tried(() =>
        {
            FileInfo file = FileOf(fileName);
            if (file.LinkTarget is not null) throw new IOException("it is a link; links are not followed");
            LayoutFiles.Write(file, bytes);
        });
    }

    /// <inheritdoc/>
    public void Dispose() => _watcher?.Dispose();

    // A name holds no separators and no "..": this looks again at what came of it, so that a mistake there opens nothing.
    private FileInfo FileOf(LayoutName name, FileRole role)
    {
        string fileName = role switch
        {
            FileRole.Layout => name.FileName,
            FileRole.Progress => name.Text + ProgressEnding,
            FileRole.Readings => name.Text + ReadingsFile.Ending,
            FileRole.FaultLog => name.Text + FaultLogFile.Ending,
            FileRole.Journal => name.Text + JournalEnding,
            FileRole.JournalBefore => name.Text + JournalEnding + ".1",
            _ => throw new ArgumentOutOfRangeException(nameof(role), role, "not a file of a layout"),
        };
        return FileOf(fileName);
    }

    private FileInfo FileOf(string fileName)
    {
        FileInfo file = new(Path.GetFullPath(Path.Combine(_folder.FullName, fileName)));
        return file.Name == fileName && file.DirectoryName == _folder.FullName
            ? file
            : throw new UnauthorizedAccessException("it lies outside the folder");
    }

    private static string? Tried(Action write)
    {
        try
        {
            write();
            return null;
        }
        catch (InputRefused refused)
        {
            return refused.Message;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return $"It cannot be written: {failure.Message}";
        }
    }

    private static int ByteAt(FileStream stream, long at)
    {
        stream.Seek(at, SeekOrigin.Begin);
        return stream.ReadByte();
    }

    private static string VersionOf(byte[] bytes) => Convert.ToHexString(SHA256.HashData(bytes));

    private static FileSystemWatcher? Watch(DirectoryInfo folder)
    {
        try
        {
            return new(folder.FullName) { NotifyFilter = NotifyFilters.FileName | NotifyFilters.LastWrite | NotifyFilters.Size };
        }
        catch (Exception failure) when (failure is IOException or ArgumentException or PlatformNotSupportedException)
        {
            return null;
        }
    }

    private void Tell(string? file)
    {
        LayoutName? name = LayoutName.OfFile(file)
            ?? (file?.EndsWith(ProgressEnding, StringComparison.Ordinal) == true ? LayoutName.Of(file[..^ProgressEnding.Length]) : null);
        if (name is { } changed) Changed?.Invoke(changed);
    }
}
