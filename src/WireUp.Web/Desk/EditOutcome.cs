using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Web.Folders;

namespace WireUp.Web.Desk;

/// <summary>What saving an edit of a layout came to, where others may have edited it meanwhile.</summary>
internal abstract record EditOutcome
{
    private EditOutcome()
    {
    }

    /// <summary>It is saved.</summary>
    /// <param name="Version">The version that is now there.</param>
    /// <param name="Text">Its text.</param>
    /// <param name="Joined">What others had changed meanwhile and is in it too.</param>
    public sealed record Saved(string Version, string Text, ImmutableArray<string> Joined) : EditOutcome
    {
        /// <summary>What others had changed, for a message; empty where nothing.</summary>
        public string Others => Joined.IsEmpty ? "" : $" Others had changed the file meanwhile, and theirs is in it too: {Few(Joined)}.";
    }

    /// <summary>Others changed the same meanwhile; nothing was written.</summary>
    /// <param name="Reason">What clashes, a sentence without its full stop.</param>
    public sealed record Clash(string Reason) : EditOutcome;

    /// <summary>It could not be written.</summary>
    /// <param name="Reason">Why, one sentence.</param>
    public sealed record Refused(string Reason) : EditOutcome;

    /// <summary>The first few of many names.</summary>
    internal static string Few(ImmutableArray<string> names) =>
        string.Join("; ", names.Take(MostTold)) + (names.Length > MostTold ? $"; and {names.Length - MostTold} more" : "");

    private const int MostTold = 6;
}

/// <summary>Saves edits so that what others saved meanwhile is kept.</summary>
internal static class JoiningFolder
{
    private const int MostTries = 5;

    /// <summary>Saves a text; where the file is no longer what was seen, joined with what it says now, entry by entry.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="name">The layout.</param>
    /// <param name="seen">The text that the edit began with, and its version.</param>
    /// <param name="text">The edited text.</param>
    public static EditOutcome SaveEdit(this ILayoutFolder folder, LayoutName name, (string Text, string Version) seen, string text)
    {
        LayoutMerge.Joined edit = new(text, []);
        SaveOutcome outcome = folder.Save(name, FileRole.Layout, text, seen.Version);
        for (int i = 0; outcome is SaveOutcome.Conflict && i < MostTries; i++)
        {
            if (folder.Read(name, FileRole.Layout) is not StoredFile.Found now) return new EditOutcome.Refused("The file is no longer there, or cannot be read now.");
            switch (LayoutMerge.Of(seen.Text, text, now.Text))
            {
                case LayoutMerge.Joined joined:
                    edit = joined;
                    outcome = folder.Save(name, FileRole.Layout, joined.Text, now.Version);
                    break;
                case LayoutMerge.Clash clash:
                    return new EditOutcome.Clash($"you and somebody else changed the same: {EditOutcome.Few(clash.Entries)}");
                case LayoutMerge.Misfit misfit:
                    return new EditOutcome.Clash($"the file was changed by another program or another browser, and the two edits cannot be joined: {misfit.Reason}");
            }
        }

        return outcome switch
        {
            SaveOutcome.Saved saved => new EditOutcome.Saved(saved.Version, edit.Text, edit.Taken),
            SaveOutcome.Refused refused => new EditOutcome.Refused(refused.Reason),
            _ => new EditOutcome.Refused("Others are saving at this moment; save again."),
        };
    }
}
