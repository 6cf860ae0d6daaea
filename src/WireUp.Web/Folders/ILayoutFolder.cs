using System.Collections.Immutable;

namespace WireUp.Web.Folders;

/// <summary>The one folder whose layouts the page shows. Whoever implements it sees to it that nothing outside is read or written.</summary>
public interface ILayoutFolder
{
    /// <summary>A file of the folder was changed, by the page or by another program; says which layout it belongs to.</summary>
    event Action<LayoutName>? Changed;

    /// <summary>The folder's name, for the page.</summary>
    string Title { get; }

    /// <summary>The layouts, in order of name.</summary>
    ImmutableArray<LayoutName> List();

    /// <summary>Reads a file.</summary>
    StoredFile Read(LayoutName name, FileRole role);

    /// <summary>
    /// Writes a file, whole or not at all, and only where it still is what the caller has seen. When this says that it is saved, it
    /// outlives the end of the program.
    /// </summary>
    /// <param name="name">The layout.</param>
    /// <param name="role">Which of its files.</param>
    /// <param name="text">The new text.</param>
    /// <param name="seen">The version that the change starts from; null where there was no file.</param>
    SaveOutcome Save(LayoutName name, FileRole role, string text, string? seen);

    /// <summary>Adds a line to the end of a file, which is begun if it is not there. A line that was only half written before stays a line of its own.</summary>
    /// <param name="name">The layout.</param>
    /// <param name="role">Which of its files.</param>
    /// <param name="line">The line, without its end.</param>
    /// <param name="isForGood">Whether it must outlive the end of the machine too, not only that of the program.</param>
    /// <returns>Why it could not be written, one sentence; null where it was.</returns>
    string? Append(LayoutName name, FileRole role, string line, bool isForGood);

    /// <summary>Puts a file aside under the name that <see cref="FileRole.JournalBefore"/> has, over the one put aside before.</summary>
    /// <returns>Why it could not be done, one sentence; null where it was, or where there is nothing to put aside.</returns>
    string? PutJournalAside(LayoutName name);

    /// <summary>Reads a picture of the folder.</summary>
    /// <param name="fileName">Its name, as <see cref="WireUp.Layouts.PlanPicture.IsFileName"/> allows it.</param>
    /// <returns>Its bytes; null where there is none that can be read, or it is larger than pictures may be.</returns>
    byte[]? ReadPicture(string fileName);

    /// <summary>Writes a picture, whole or not at all, over one of that name.</summary>
    /// <returns>Why it could not be written, one sentence; null where it was.</returns>
    string? SavePicture(string fileName, byte[] bytes);
}

/// <summary>The files that belong to a layout.</summary>
public enum FileRole
{
    /// <summary>The layout file itself.</summary>
    Layout,

    /// <summary>What of its wiring schedule is done.</summary>
    Progress,

    /// <summary>What was measured and seen while looking for a fault.</summary>
    Readings,

    /// <summary>The faults that were found and cured.</summary>
    FaultLog,

    /// <summary>Every change of the layout that was made on the page, to undo it.</summary>
    Journal,

    /// <summary>The journal that came before it.</summary>
    JournalBefore,
}

/// <summary>What reading a file came to.</summary>
public abstract record StoredFile
{
    private StoredFile()
    {
    }

    /// <summary>It was read.</summary>
    /// <param name="Text">Its text.</param>
    /// <param name="Version">Stands for exactly this text.</param>
    public sealed record Found(string Text, string Version) : StoredFile;

    /// <summary>There is no such file.</summary>
    public sealed record Missing : StoredFile;

    /// <summary>It is there and cannot be read.</summary>
    /// <param name="Reason">Why, one sentence.</param>
    public sealed record Unreadable(string Reason) : StoredFile;
}

/// <summary>What saving a file came to.</summary>
public abstract record SaveOutcome
{
    private SaveOutcome()
    {
    }

    /// <summary>It is saved.</summary>
    /// <param name="Version">The version that is now there.</param>
    public sealed record Saved(string Version) : SaveOutcome;

    /// <summary>Somebody changed it meanwhile; nothing was written.</summary>
    public sealed record Conflict : SaveOutcome;

    /// <summary>It could not be written.</summary>
    /// <param name="Reason">Why, one sentence.</param>
    public sealed record Refused(string Reason) : SaveOutcome;
}
