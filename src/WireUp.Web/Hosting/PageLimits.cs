namespace WireUp.Web.Hosting;

/// <summary>How much the page takes from a browser. Far above any railway, low enough that nobody fills the machine's memory with it.</summary>
public static class PageLimits
{
    /// <summary>Bytes of a layout file that is handed in, or of a text that is edited.</summary>
    public const int LayoutBytes = 4 * 1024 * 1024;

    /// <summary>Bytes of a picture of the plan.</summary>
    public const int PictureBytes = 12 * 1024 * 1024;

    /// <summary>Points of a picture along one side; a browser unpacks every one of them.</summary>
    public const int PictureSide = 12_000;

    /// <summary>Points of a picture in all.</summary>
    public const int PicturePoints = 60_000_000;

    /// <summary>Bytes of a journal, after which it is put aside and another is begun.</summary>
    public const int JournalBytes = 4 * 1024 * 1024;

    /// <summary>Bytes of any one request: a layout and what a form puts around it.</summary>
    public const int RequestBytes = LayoutBytes + (64 * 1024);

    /// <summary>Connections at one time.</summary>
    public const int Connections = 100;

    /// <summary>Pages of long-gone browsers that are kept in case they come back.</summary>
    public const int KeptPages = 10;
}
