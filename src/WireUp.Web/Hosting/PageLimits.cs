namespace WireUp.Web.Hosting;

/// <summary>How much the page takes from a browser. Far above any railway, low enough that nobody fills the machine's memory with it.</summary>
public static class PageLimits
{
    /// <summary>Bytes of a layout file that is handed in, or of a text that is edited.</summary>
    public const int LayoutBytes = 4 * 1024 * 1024;

    /// <summary>Bytes of any one request: a layout and what a form puts around it.</summary>
    public const int RequestBytes = LayoutBytes + (64 * 1024);

    /// <summary>Connections at one time.</summary>
    public const int Connections = 100;

    /// <summary>Pages of long-gone browsers that are kept in case they come back.</summary>
    public const int KeptPages = 10;
}
