using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

namespace WireUp.Documents.Tests.Book.Approved;

/// <summary>
/// A page of each kind as it was approved, and the pictures of them in the docs. After a change on purpose make both anew with
/// <c>WireUp.Documents.Tests -explicit only -class '*ApprovedPages'</c>, and look at the difference and at the pictures before you commit them.
/// </summary>
public sealed partial class ApprovedPages
{
    private const string Approved = "tests/WireUp.Documents.Tests/Book/Approved/Pages", Pictures = "docs/images/book", MadeFrom = $"{Pictures}/made-from.txt";
    private const double PictureDotsPerInch = 45;

    public static TheoryData<string> Names => [.. BookKinds.Pages.Select(kind => kind.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void A_page_of_each_kind_is_as_approved(string name) => ApprovedText.Matches(Svg(name), $"{name}.svg", Approved);

    [Theory]
    [MemberData(nameof(Names))]
    public void No_page_has_words_that_cover_words_or_leave_the_paper(string name)
    {
        Scene page = PageOf(name);
        Assert.Empty(SceneMeasures.TextsOnTexts(page));
        Assert.Empty(SceneMeasures.TextsOutside(page, page.Bounds.Grow(-2)));
    }

    [Fact]
    public void The_docs_show_a_picture_of_each_kind_made_from_the_page_as_it_is()
    {
        string docs = RepoFiles.ReadText("docs/wiring-book.md");
        Assert.Equal(Names.Select(row => row.Data).Order(StringComparer.Ordinal), PictureOfDocs().Matches(docs).Select(found => found.Groups["name"].Value).Order(StringComparer.Ordinal));
        Assert.All(BookKinds.Pages, kind => Assert.True(File.Exists(RepoFiles.PathOf($"{Pictures}/{kind.Name}.png")), kind.Name));
        Assert.Equal(RepoFiles.ReadText(MadeFrom).ReplaceLineEndings("\n"), Origins());
    }

    [Fact(Explicit = true)]
    public void Make_the_approved_pages_and_their_pictures_anew()
    {
        Directory.CreateDirectory(RepoFiles.PathOf(Approved));
        Directory.CreateDirectory(RepoFiles.PathOf(Pictures));
        foreach ((string name, Scene page) in BookKinds.Pages)
        {
            File.WriteAllText(RepoFiles.PathOf($"{Approved}/{name}.svg"), SvgScene.Write(page));
            File.WriteAllBytes(RepoFiles.PathOf($"{Pictures}/{name}.png"), PngScene.Write(page, PictureDotsPerInch));
        }

        File.WriteAllText(RepoFiles.PathOf(MadeFrom), Origins());
    }

    private static string Origins() => string.Concat(BookKinds.Pages.Select(kind => $"{kind.Name} {Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(SvgScene.Write(kind.Page))))}\n"));

    private static string Svg(string name) => SvgScene.Write(PageOf(name));

    private static Scene PageOf(string name) => BookKinds.Pages.Single(kind => kind.Name == name).Page;

    [GeneratedRegex(@"\(images/book/(?<name>[a-z-]+)\.png\)", RegexOptions.None, matchTimeoutMilliseconds: 1000)]
    private static partial Regex PictureOfDocs();
}
