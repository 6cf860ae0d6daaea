using System.Security.Cryptography;
using WireUp.Layouts;
using WireUp.Web.Folders;

namespace WireUp.Web.Drafting;

/// <summary>Takes in pictures of plans and looks at those that are there.</summary>
internal sealed class PictureDesk(ILayoutFolder folder)
{
    /// <summary>A picture that can be shown; null where the folder has none of that name.</summary>
    public PictureLook? Look(string fileName) => folder.ReadPicture(fileName) is { } bytes && PictureHead.Of(bytes) is { Refusal: null } head
        ? new(fileName, head, Convert.ToHexString(SHA256.HashData(bytes))[..16])
        : null;

    /// <summary>Puts a picture beside a layout, as <c>NAME.picture.png</c>.</summary>
    public PictureTaken Take(LayoutName layout, byte[] bytes)
    {
        if (PictureHead.Of(bytes) is not { } head) return new(null, $"The file is not {PictureHead.Expected}, or it is broken.");
        if (head.Refusal is { } refusal) return new(null, refusal);
        string fileName = $"{layout.Text}.picture.{head.Ending}";
        if (!PlanPicture.IsFileName(fileName)) return new(null, $"'{fileName}' cannot be the name of a picture.");
        return folder.SavePicture(fileName, bytes) is { } trouble ? new(null, trouble) : new(Look(fileName), null);
    }
}

/// <summary>A picture of the folder.</summary>
/// <param name="FileName">Its name.</param>
/// <param name="Head">What its first bytes say.</param>
/// <param name="Version">Stands for exactly these bytes.</param>
public sealed record PictureLook(string FileName, PictureHead Head, string Version);

/// <summary>What came of taking in a picture.</summary>
/// <param name="Picture">The picture, or null.</param>
/// <param name="Trouble">Why there is none, one sentence.</param>
internal sealed record PictureTaken(PictureLook? Picture, string? Trouble);
