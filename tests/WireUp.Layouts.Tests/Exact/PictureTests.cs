using UnitsNet;

namespace WireUp.Layouts.Tests.Exact;

public sealed class PictureTests
{
    private const string Base = "wireup: 1\nname: x\nlongest-train: 1 m\nunits: in\ntrack:\n  s: { length: 20 }   # the only one\n";

    private static readonly PlanPicture Scan = new("attic.picture.png", Length.FromMeters(3.6)) { At = new(-0.25, 1.5), Turn = Angle.FromDegrees(90) };

    [Fact]
    public void A_picture_is_added_behind_what_is_there_with_units_whatever_bare_numbers_mean()
    {
        LayoutDocument document = LayoutDocument.Open(Base, "x").WithPicture(Scan);
        Assert.Equal(Base + "\npicture:\n  file: attic.picture.png\n  width: 3.6 m\n  at: [-250 mm, 1.5 m]\n  turn: 90 deg\n", document.Text);
        Assert.Equal(Scan, document.Reading.Layout!.Picture);
    }

    [Theory]
    [InlineData("picture: { file: old.png, width: 2 m }  # the scan\n", "picture: { file: attic.picture.png, width: 3.6 m, at: [-250 mm, 1.5 m], turn: 90 deg }  # the scan\n")]
    [InlineData(
        "picture:\n  turn: 5 deg  # a bit\n  width: 2 m\n  file: old.png   # the scan\n  x-mine: 1\n",
        "picture:\n  turn: 90 deg  # a bit\n  width: 3.6 m\n  file: attic.picture.png   # the scan\n  x-mine: 1\n  at: [-250 mm, 1.5 m]\n")]
    public void A_picture_takes_the_place_of_another_and_comments_stay(string before, string after) =>
        Assert.Equal(Base + after, LayoutDocument.Open(Base + before, "x").WithPicture(Scan).Text);

    [Fact]
    public void What_is_usual_is_written_where_something_else_stood()
    {
        PlanPicture plain = new("a.png", Length.FromMeters(2));
        LayoutDocument document = LayoutDocument.Open(Base, "x").WithPicture(Scan).WithPicture(plain);
        Assert.EndsWith("at: [0, 0]\n  turn: 0 deg\n", document.Text, StringComparison.Ordinal);
        Assert.Equal(plain, document.Reading.Layout!.Picture);
    }

    [Theory]
    [InlineData("picture: { file: old.png, width: 2 m }  # the scan\n# last\n")]
    [InlineData("picture:\n  file: old.png\n  width: 2 m\n# last\n")]
    public void A_picture_is_taken_out_and_nothing_else(string before) =>
        Assert.Equal(Base + "# last\n", LayoutDocument.Open(Base + before, "x").WithPicture(null).Text);

    [Fact]
    public void A_layout_that_only_lacks_track_is_blank_and_takes_a_picture()
    {
        LayoutDocument blank = LayoutDocument.Open("wireup: 1\nname: x\nlongest-train: 1 m\ntrack:\n", "x");
        Assert.Null(blank.Reading.Layout);
        Assert.Equal("x", blank.Reading.Blank!.Name);
        Assert.Equal(Scan, blank.WithPicture(Scan).Reading.Blank!.Picture);
        Assert.Null(LayoutDocument.Open("wireup: 1\nname: x\ntrack:\n", "x").Reading.Blank);
        Assert.Null(LayoutDocument.Open(Base, "x").Reading.Blank);
    }

    [Theory]
    [InlineData("plan.png", true)]
    [InlineData("Süd 2.picture.jpeg", true)]
    [InlineData(".png", false)]
    [InlineData("", false)]
    [InlineData("a/b.png", false)]
    [InlineData("a\\b.png", false)]
    [InlineData("..png", false)]
    [InlineData("a..png", false)]
    [InlineData("C:a.png", false)]
    [InlineData("a.svg", true)]
    [InlineData("a.gif", false)]
    public void Only_a_plain_name_is_one_of_a_picture(string name, bool isOne) => Assert.Equal(isOne, PlanPicture.IsFileName(name));
}
